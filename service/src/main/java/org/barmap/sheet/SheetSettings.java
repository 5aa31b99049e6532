package org.barmap.sheet;

import java.time.LocalDateTime;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.barmap.exchange.chair.TheirBars;

/**
 * How sheets are printed.
 *
 * @param paper paper size
 * @param bigType letters half as large again
 * @param asOf the moment the sheets tell of, which stands on every page; empty for none
 * @param number the label of the only number that is wanted, where a sheet has a side for each
 * @param beside what stands under a change, by its id: its bars in another part of the show
 * @param theirs what bars are called in that part
 */
public record SheetSettings(
    Paper paper,
    boolean bigType,
    Optional<LocalDateTime> asOf,
    Optional<String> number,
    Map<String, String> beside,
    Optional<TheirBars> theirs) {

  /** Takes a defensive copy. */
  public SheetSettings {
    beside = Map.copyOf(beside);
  }

  private static final DateTimeFormatter MOMENT =
      DateTimeFormatter.ofPattern("EEE d MMM yyyy, HH:mm", Locale.ENGLISH);

  /** Sheets without a date, with every number. */
  public SheetSettings(Paper paper, boolean bigType) {
    this(paper, bigType, Optional.empty(), Optional.empty(), Map.of(), Optional.empty());
  }

  /** Returns the same for a moment, with one number only where that is given. */
  public SheetSettings with(LocalDateTime moment, Optional<String> only) {
    return new SheetSettings(paper, bigType, Optional.of(moment), only, beside, theirs);
  }

  /** Returns the same with something under changes, and another part's bars beside this one's. */
  public SheetSettings beside(Map<String, String> said, Optional<TheirBars> bars) {
    return new SheetSettings(paper, bigType, asOf, number, said, bars);
  }

  /** Returns the moment as a player reads it, "Sat 28 Nov 2026, 20:15". */
  Optional<String> dated() {
    return asOf.map(MOMENT::format);
  }

  /** A4, usual type. */
  public static final SheetSettings USUAL = new SheetSettings(Paper.A4, false);

  /** A paper size. */
  public enum Paper {
    /** 210 × 297 mm. */
    A4,
    /** 8.5 × 11 in. */
    LETTER;

    PDRectangle size() {
      return this == A4 ? PDRectangle.A4 : PDRectangle.LETTER;
    }
  }

  /** Returns a size of type in points, never below 12. */
  float points(float usual) {
    return Math.max(12, bigType ? usual * 1.5f : usual);
  }
}
