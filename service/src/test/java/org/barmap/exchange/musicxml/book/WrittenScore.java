package org.barmap.exchange.musicxml.book;

import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Finding;
import org.barmap.map.Word;

/**
 * MusicXML written by hand from one line of text, for tests; nothing of the product writes it.
 *
 * <p>One token a bar: {@code |:1} repeat start, {@code 4:|} repeat end, {@code :|x3} played three
 * times, {@code 2/1,2} under endings 1 and 2, then signs behind {@code @}: segno, coda, to, fine,
 * dc, ds as sounds with their signs and words, {@code w:Words_over_it}, n0 (a pickup).
 */
final class WrittenScore {

  private WrittenScore() {}

  static BarMap book(String text) throws Exception {
    return book(xml(text), "");
  }

  static BarMap book(byte[] xml, String part) throws Exception {
    ScoreBook score = ScoreBook.read("test.musicxml", new ByteArrayInputStream(xml));
    return score.book(score.part(part).orElseThrow()).map();
  }

  /** A score of one part, "Bass". */
  static byte[] score(String measures) {
    return ("<score-partwise version=\"4.0\"><part-list><score-part id=\"P1\"><part-name>Bass"
            + "</part-name></score-part></part-list><part id=\"P1\">"
            + measures
            + "</part></score-partwise>")
        .getBytes(StandardCharsets.UTF_8);
  }

  static BarMap of(String measures) throws Exception {
    return book(score(measures), "");
  }

  static String note(int quarters) {
    return "<note><pitch><step>C</step><octave>3</octave></pitch><duration>"
        + quarters
        + "</duration></note>";
  }

  static byte[] xml(String text) {
    List<String> tokens = Arrays.asList(text.strip().split("\\s+"));
    List<String> endings = new ArrayList<>();
    for (String token : tokens) {
      String name = token.split("@")[0].replace("|:", "").replaceAll(":\\|.*", "");
      endings.add(name.contains("/") ? name.substring(name.indexOf('/') + 1) : "");
    }
    StringBuilder out = new StringBuilder();
    for (int i = 0; i < tokens.size(); i++) {
      boolean first =
          i == 0 || !endings.get(i).equals(endings.get(i - 1)) || endsRepeat(tokens.get(i - 1));
      boolean last =
          i == tokens.size() - 1
              || !endings.get(i).equals(endings.get(i + 1))
              || endsRepeat(tokens.get(i));
      out.append(measure(i, tokens.get(i), endings.get(i), first, last));
    }
    return score(out.toString());
  }

  private static boolean endsRepeat(String token) {
    return token.contains(":|");
  }

  private static String measure(int i, String token, String ending, boolean first, boolean last) {
    String[] parts = token.split("@");
    String head = parts[0];
    String name = head.replace("|:", "").replaceAll(":\\|.*", "").replaceAll("/.*", "");
    List<String> signs = new ArrayList<>(Arrays.asList(parts).subList(1, parts.length));
    boolean pickup = signs.remove("n0");
    StringBuilder m = new StringBuilder("<measure number=\"" + (pickup ? "0" : name) + "\"");
    m.append(pickup ? " implicit=\"yes\">" : ">");
    boolean begins = head.startsWith("|:");
    if (begins || (first && !ending.isEmpty())) {
      m.append("<barline location=\"left\">");
      m.append(begins ? "<bar-style>heavy-light</bar-style>" : "");
      m.append(
          ending.isEmpty() || !first ? "" : "<ending number=\"" + ending + "\" type=\"start\"/>");
      m.append(begins ? "<repeat direction=\"forward\"/>" : "").append("</barline>");
    }
    if (i == 0) {
      m.append(
          "<attributes><divisions>1</divisions><time><beats>4</beats><beat-type>4</beat-type></time></attributes>");
    }
    signs.stream()
        .filter(s -> s.equals("segno") || s.equals("coda"))
        .forEach(s -> m.append(sign(s)));
    m.append(note(pickup ? 1 : 4));
    signs.stream()
        .filter(s -> !s.equals("segno") && !s.equals("coda"))
        .forEach(s -> m.append(sign(s)));
    if (endsRepeat(head) || (last && !ending.isEmpty())) {
      String times = head.contains(":|x") ? head.substring(head.indexOf(":|x") + 3) : "";
      m.append("<barline location=\"right\">");
      m.append(
          ending.isEmpty() || !last ? "" : "<ending number=\"" + ending + "\" type=\"stop\"/>");
      m.append(
          !endsRepeat(head)
              ? ""
              : "<repeat direction=\"backward\""
                  + (times.isEmpty() ? "" : " times=\"" + times + "\"")
                  + "/>");
      m.append("</barline>");
    }
    return m.append("</measure>").toString();
  }

  private static String sign(String sign) {
    String type =
        switch (sign) {
          case "segno" -> "<segno/>";
          case "coda" -> "<coda/>";
          case "to" -> "<words>To Coda</words>";
          case "fine" -> "<words>Fine</words>";
          case "dc" -> "<words>D.C.</words>";
          case "ds" -> "<words>D.S.</words>";
          default -> "<words>" + sign.replaceFirst("^w:", "").replace('_', ' ') + "</words>";
        };
    String sound =
        switch (sign) {
          case "segno" -> "<sound segno=\"segno\"/>";
          case "coda" -> "<sound coda=\"coda\"/>";
          case "to" -> "<sound tocoda=\"coda\"/>";
          case "fine" -> "<sound fine=\"yes\"/>";
          case "dc" -> "<sound dacapo=\"yes\"/>";
          case "ds" -> "<sound dalsegno=\"segno\"/>";
          default -> "";
        };
    return "<direction><direction-type>" + type + "</direction-type>" + sound + "</direction>";
  }

  static final String FOUR =
      "<attributes><divisions>1</divisions><key><fifths>-3</fifths></key>"
          + "<time symbol=\"common\"><beats>4</beats><beat-type>4</beat-type></time></attributes>";
  static final String REST = "<note><rest measure=\"yes\"/><duration>4</duration></note>";

  static String m(String number, String content) {
    return "<measure number=\"" + number + "\">" + content + "</measure>";
  }

  static String hidden(String number, String content) {
    return "<measure number=\"" + number + "\" implicit=\"yes\">" + content + "</measure>";
  }

  static String words(String... words) {
    return IntStream.range(0, words.length)
        .mapToObj(i -> "<words>" + words[i] + "</words>")
        .collect(
            Collectors.joining("", "<direction><direction-type>", "</direction-type></direction>"));
  }

  static String multi(int bars) {
    return "<attributes><measure-style><multiple-rest>"
        + bars
        + "</multiple-rest></measure-style></attributes>";
  }

  static String names(BarMap map) {
    return map.bars().stream()
        .map(
            b ->
                b.label().orElse(Integer.toString(b.number()))
                    + (b.count() > 1 ? "x" + b.count() : ""))
        .collect(Collectors.joining(" "));
  }

  static List<String> codes(BarMap map) {
    return map.findings().stream().map(Finding::code).toList();
  }

  static List<String> texts(Bar bar) {
    return bar.words().stream().map(Word::text).toList();
  }
}
