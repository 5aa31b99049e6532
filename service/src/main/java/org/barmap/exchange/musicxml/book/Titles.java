package org.barmap.exchange.musicxml.book;

import jakarta.xml.bind.JAXBElement;
import java.util.Optional;
import org.audiveris.proxymusic.Credit;
import org.audiveris.proxymusic.FormattedText;
import org.audiveris.proxymusic.ScorePartwise;
import org.barmap.exchange.musicxml.Texts;

/**
 * What a score says it is.
 *
 * @param book the work's title, or else the movement's
 * @param label the movement's number, where there is one
 * @param movement the movement's title where the work has another one; may be empty
 */
record Titles(String book, Optional<String> label, String movement) {
  private static final int MOST = 200;
  private static final int MOST_LABEL = 40;

  static Titles of(ScorePartwise score, String source) {
    String work = score.getWork() == null ? "" : clean(score.getWork().getWorkTitle());
    String movement = clean(score.getMovementTitle());
    String label = clean(score.getMovementNumber());
    String book = !work.isEmpty() ? work : !movement.isEmpty() ? movement : credited(score);
    return new Titles(
        book.isEmpty() ? source.replaceFirst("(?i)\\.(musicxml|xml|mxl)$", "") : book,
        label.isEmpty() ? Optional.empty() : Optional.of(Texts.clip(label, MOST_LABEL)),
        movement.equals(book) ? "" : movement);
  }

  /** The words that are printed as the title. */
  private static String credited(ScorePartwise score) {
    for (Credit credit : score.getCredit()) {
      boolean title = false;
      for (JAXBElement<?> e : credit.getCreditTypeOrLinkOrBookmark()) {
        String kind = e.getName().getLocalPart();
        title |= kind.equals("credit-type") && "title".equals(String.valueOf(e.getValue()).strip());
        if (title
            && e.getValue() instanceof FormattedText text
            && !clean(text.getValue()).isEmpty()) {
          return clean(text.getValue());
        }
      }
    }
    return "";
  }

  static String clean(String text) {
    return text == null ? "" : Texts.clip(text.replaceAll("\\s+", " ").strip(), MOST);
  }
}
