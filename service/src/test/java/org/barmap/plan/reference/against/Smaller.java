package org.barmap.plan.reference.against;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.Predicate;
import org.barmap.plan.reference.books.RandomBook;

/** Makes a book smaller as long as it still shows what is to be seen. */
public final class Smaller {

  /** How many smaller books are tried at most. */
  private static final int TRIES = 3000;

  private final Predicate<RandomBook> shows;
  private int tries;

  private Smaller(Predicate<RandomBook> shows) {
    this.shows = shows;
  }

  /** Returns a small book that still shows it: no single change, bar or sign of it can go. */
  public static RandomBook of(RandomBook book, Predicate<RandomBook> shows) {
    return new Smaller(shows).smaller(book);
  }

  private RandomBook smaller(RandomBook book) {
    RandomBook now = book;
    boolean again = true;
    while (again && tries < TRIES) {
      again = false;
      for (RandomBook next : candidates(now)) {
        if (tries < TRIES && shows(next)) {
          now = next;
          again = true;
          break;
        }
      }
    }
    return now;
  }

  private boolean shows(RandomBook book) {
    tries++;
    try {
      return shows.test(book);
    } catch (IllegalArgumentException | IndexOutOfBoundsException e) {
      // What is left is no book in the notation.
      return false;
    }
  }

  private static List<RandomBook> candidates(RandomBook book) {
    List<RandomBook> all = new ArrayList<>();
    for (int k = 0; k < book.changes().size(); k++) {
      List<String> fewer = new ArrayList<>(book.changes());
      fewer.remove(k);
      all.add(new RandomBook(book.book(), fewer, book.repeatsAfterJump()));
    }
    List<String> tokens = Arrays.asList(book.book().split(" "));
    for (int length = tokens.size() / 2; length >= 1; length /= 2) {
      for (int from = 0; from + length <= tokens.size(); from += length) {
        List<String> fewer = new ArrayList<>(tokens);
        fewer.subList(from, from + length).clear();
        if (!fewer.isEmpty()) {
          all.add(book(fewer, book));
        }
      }
    }
    for (int k = 0; k < tokens.size(); k++) {
      String bare = tokens.get(k).replaceFirst("(@[a-z]+|\\{[^}]*}|<[^>]+>|x\\d+)$", "");
      if (!bare.isEmpty() && !bare.equals(tokens.get(k))) {
        List<String> other = new ArrayList<>(tokens);
        other.set(k, bare);
        all.add(book(other, book));
      }
    }
    return all;
  }

  private static RandomBook book(List<String> tokens, RandomBook book) {
    return new RandomBook(String.join(" ", tokens), book.changes(), book.repeatsAfterJump());
  }
}
