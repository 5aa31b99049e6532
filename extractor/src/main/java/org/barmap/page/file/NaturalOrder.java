package org.barmap.page.file;

import java.util.Comparator;

/** Orders file names as people do: runs of digits by their value, the rest by letter. */
enum NaturalOrder implements Comparator<String> {
  INSTANCE;

  @Override
  public int compare(String a, String b) {
    int i = 0;
    int j = 0;
    while (i < a.length() && j < b.length()) {
      int d;
      if (digit(a.charAt(i)) && digit(b.charAt(j))) {
        int iEnd = digitsEnd(a, i);
        int jEnd = digitsEnd(b, j);
        String x = a.substring(i, iEnd).replaceFirst("^0+(?=.)", "");
        String y = b.substring(j, jEnd).replaceFirst("^0+(?=.)", "");
        d = x.length() != y.length() ? Integer.compare(x.length(), y.length()) : x.compareTo(y);
        i = iEnd;
        j = jEnd;
      } else {
        d =
            Character.compare(
                Character.toLowerCase(a.charAt(i++)), Character.toLowerCase(b.charAt(j++)));
      }
      if (d != 0) {
        return d;
      }
    }
    int rest = Integer.compare(a.length() - i, b.length() - j);
    return rest != 0 ? rest : a.compareTo(b);
  }

  private static boolean digit(char c) {
    return c >= '0' && c <= '9';
  }

  private static int digitsEnd(String s, int from) {
    int end = from;
    while (end < s.length() && digit(s.charAt(end))) {
      end++;
    }
    return end;
  }
}
