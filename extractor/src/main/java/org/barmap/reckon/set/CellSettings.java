package org.barmap.reckon.set;

/**
 * How systems are cut into cells, and what is seen in a cell and beside a line.
 *
 * <p>Lengths are in staff spaces along the staff, shares and probabilities from 0 to 1. Where no
 * other reason stands beside a value it was set by looking at single cases on the pages of the
 * corpus; no figures of those searches were kept.
 *
 * @param cutting where bars begin and end, and what may be a barline
 * @param beats what notes and rests count towards a bar
 * @param lengths how long the bars of a book are
 * @param filled how many bars a cell holds
 * @param gaps what tells of barlines missed in a cell
 * @param rooms how wide a cell is for what stands in it
 * @param printed where printed numbers and rehearsal marks belong
 * @param rests which numeral belongs to a rest
 * @param meters what may be a meter
 * @param signs which bar a sign belongs to
 */
public record CellSettings(
    Cutting cutting,
    Beats beats,
    Lengths lengths,
    Filled filled,
    Gaps gaps,
    Rooms rooms,
    Printed printed,
    Rests rests,
    Meters meters,
    Signs signs) {

  /**
   * Where bars begin and end, and what may be a barline.
   *
   * @param header usual width of clef and key at the start of a line
   * @param headerShare no more than this part of a line, as its divisor
   * @param opening a stroke this near the line's beginning belongs to the beginning
   * @param beforeFirst the first bar begins at least this far before its barline
   * @param repeatOpening a forward repeat up to here follows clef, key and meter
   * @param widestOpening the same where a wide key and a meter are all that stands before it
   * @param ownInk the repeat's own thick stroke may be the first thing taken for a note: where
   *     music begins is then this much before it
   * @param besideMeter a forward repeat this near after a meter stands beside it
   * @param meter a meter likelier than this stands there: even odds
   * @param leastTail less room than this after the last barline holds no bar; with a courtesy meter
   *     or key there, twice as much
   * @param written ink this near a barline may be the barline's own
   * @param candidate a line less likely than this cuts no cell; it is a trace of a missed one at
   *     best
   * @param traceApart a trace is at least this far from the lines beside it
   * @param leastFirst where less is left of a line's first bar, its music begins sooner
   * @param rest two numbered rests likelier than this, each, with no line between them miss one:
   *     even odds
   * @param restLine a line up to this far inside either of them is between them
   * @param restsApart they stand at least this far apart
   */
  public record Cutting(
      double header,
      int headerShare,
      double opening,
      double beforeFirst,
      double repeatOpening,
      double widestOpening,
      double ownInk,
      double besideMeter,
      double meter,
      double leastTail,
      double written,
      double candidate,
      double traceApart,
      double leastFirst,
      double rest,
      double restLine,
      double restsApart) {}

  /**
   * What notes and rests count towards a bar.
   *
   * @param besideLine a barline's own dots and strokes are no notes
   * @param clef a line's first note stands at least this far from its beginning, and so much more
   *     as from any barline: of 8,900 lines read, two sounds were found nearer
   * @param together two sounds nearer than this begin together and count once
   * @param there a sound less likely than this isn't there: even odds
   * @param besideWhole what is this near a sign for a whole bar is part of the sign
   * @param header a meter or key may stand so far after its bar's beginning
   * @param headerShare or so far into its bar, as a share of the bar
   * @param beforeNote a barline stands so far before the note that begins its bar, at most
   * @param beforeShare and no further than this share of the room before that note
   * @param exact sums of note values are alike up to this, quarter notes: rounding only
   */
  public record Beats(
      double besideLine,
      double clef,
      double together,
      double there,
      double besideWhole,
      double header,
      double headerShare,
      double beforeNote,
      double beforeShare,
      double exact) {}

  /**
   * How long the bars of a book are.
   *
   * @param there a meter less likely than this isn't one: even odds
   * @param few fewer bars than this say nothing about their length
   * @param most this share of the bars of a stretch says what length is meant
   * @param hardlyAny and no more than this share agrees with the meter that was read
   * @param leastWhole a page on which a smaller share of cells holds a whole number of bars is
   *     misread
   * @param ticks parts of a quarter note to which lengths are told apart: thirds and eighths of it
   *     are whole
   */
  public record Lengths(
      double there, int few, double most, double hardlyAny, double leastWhole, int ticks) {}

  /**
   * How many bars a cell holds.
   *
   * @param exact sums of thirds and halves are whole numbers up to this; bars
   * @param least less than this counts as this; bars
   * @param mostOctaves no more than so many times twice as much, or half as much
   */
  public record Filled(double exact, double least, double mostOctaves) {}

  /**
   * What tells of barlines missed in a cell.
   *
   * @param headerSlack how much wider clef, key and meter may be than a line's usual beginning
   * @param apart signs of two bars are at least this far apart
   * @param there a sign is there when the reader gives it this much: even odds
   * @param leastRoom less room than this counts as this
   * @param mostOctaves a room counts as no more than so many times twice a bar, or half of one
   * @param besideSign a line between two signs stands at least this far from either
   */
  public record Gaps(
      double headerSlack,
      double apart,
      double there,
      double leastRoom,
      double mostOctaves,
      double besideSign) {}

  /**
   * How wide a cell is for what stands in it.
   *
   * @param inside how far inside a cell a mark stands that belongs to none of its sides
   * @param there a mark is there when the reader gives it this much: even odds
   * @param few fewer bars of music than this on a page say little about its widths
   * @param fewOnLine and fewer than this on a line
   * @param leastBar a narrower bar counts as this wide in a mean
   * @param unknown width of a bar in a book that has no bar of music
   * @param least the usual width is no less
   * @param restEdge a line this far inside a thick rest bar is part of it
   * @param even room that a bar has beside its notes, in the room of notes
   * @param repeat a line is a repeat when the reader gives its kinds this much: even odds
   */
  public record Rooms(
      double inside,
      double there,
      int few,
      int fewOnLine,
      double leastBar,
      double unknown,
      double least,
      double restEdge,
      double even,
      double repeat) {}

  /**
   * Where printed numbers and rehearsal marks belong.
   *
   * @param reach a mark this near a bar's beginning belongs to it
   * @param first a bar number up to this far into a line belongs to its first bar
   * @param mostFigures a number has no more figures
   */
  public record Printed(double reach, double first, int mostFigures) {}

  /**
   * Which numeral belongs to a rest.
   *
   * @param reach how far a numeral's middle may be from its rest
   * @param outside how far outside its cell it may be
   * @param most largest believable count
   */
  public record Rests(double reach, double outside, int most) {}

  /**
   * What may be a meter.
   *
   * @param mostBeats beats of a bar at most
   * @param mostUnit smallest note value that counts them, as its share of a whole note
   */
  public record Meters(int mostBeats, int mostUnit) {}

  /**
   * Which bar a sign belongs to.
   *
   * @param before a sign at a bar's beginning may stand this far to the left of it
   * @param overhang but no further than this part of the bar, as its divisor
   * @param over a sign this near the beginning of a bar stands over it
   * @param repeatOver a sign for two bars reaches this far over one of its barlines
   * @param rest a rest is there when the reader gives it this much: even odds
   * @param besideNotes a bar-repeat sign in a bar of notes is there when the reader gives it this
   *     much: of 804 read 13 less sure ones stood beside notes and were none
   * @param mostEnding endings from one number to another go no further
   * @param codaAfter a coda sign begins this near after the words it belongs to
   * @param codaBefore or ends this near before them
   * @param words words belong to the bar this far right of their beginning
   * @param listed readings of a sign that the map keeps
   * @param kept chord symbols and sung words are kept among a bar's words when read this surely
   */
  public record Signs(
      double before,
      int overhang,
      double over,
      double repeatOver,
      double rest,
      double besideNotes,
      int mostEnding,
      double codaAfter,
      double codaBefore,
      double words,
      int listed,
      double kept) {}

  static CellSettings standard() {
    return new CellSettings(
        standardCutting(),
        standardBeats(),
        standardLengths(),
        standardFilled(),
        standardGaps(),
        standardRooms(),
        standardPrinted(),
        standardRests(),
        standardMeters(),
        standardSigns());
  }

  private static Cutting standardCutting() {
    return new Cutting(
        /* header= */ 6,
        /* headerShare= */ 8,
        /* opening= */ 2.2,
        /* beforeFirst= */ 2,
        /* repeatOpening= */ 14,
        /* widestOpening= */ 26,
        /* ownInk= */ 3.2,
        /* besideMeter= */ 3.5,
        /* meter= */ 0.5,
        /* leastTail= */ 5,
        /* written= */ 1.5,
        /* candidate= */ 0.3,
        /* traceApart= */ 2.5,
        /* leastFirst= */ 4,
        /* rest= */ 0.5,
        /* restLine= */ 1,
        /* restsApart= */ 2);
  }

  private static Beats standardBeats() {
    return new Beats(
        /* besideLine= */ 0.7,
        /* clef= */ 3,
        /* together= */ 0.6,
        /* there= */ 0.5,
        /* besideWhole= */ 0.3,
        /* header= */ 12,
        /* headerShare= */ 0.4,
        /* beforeNote= */ 1.8,
        /* beforeShare= */ 0.4,
        /* exact= */ 0.01);
  }

  private static Lengths standardLengths() {
    return new Lengths(
        /* there= */ 0.5,
        /* few= */ 4,
        /* most= */ 0.6,
        /* hardlyAny= */ 0.15,
        /* leastWhole= */ 0.65,
        /* ticks= */ 24);
  }

  private static Filled standardFilled() {
    return new Filled(/* exact= */ 0.02, /* least= */ 0.1, /* mostOctaves= */ 2);
  }

  private static Gaps standardGaps() {
    return new Gaps(
        /* headerSlack= */ 6,
        /* apart= */ 3,
        /* there= */ 0.5,
        /* leastRoom= */ 0.1,
        /* mostOctaves= */ 2,
        /* besideSign= */ 0.5);
  }

  private static Rooms standardRooms() {
    return new Rooms(
        /* inside= */ 5,
        /* there= */ 0.5,
        /* few= */ 8,
        /* fewOnLine= */ 3,
        /* leastBar= */ 0.5,
        /* unknown= */ 20,
        /* least= */ 1,
        /* restEdge= */ 0.5,
        /* even= */ 1,
        /* repeat= */ 0.5);
  }

  private static Printed standardPrinted() {
    return new Printed(/* reach= */ 5, /* first= */ 2, /* mostFigures= */ 4);
  }

  private static Rests standardRests() {
    return new Rests(/* reach= */ 4, /* outside= */ 1, /* most= */ 400);
  }

  private static Meters standardMeters() {
    return new Meters(/* mostBeats= */ 64, /* mostUnit= */ 32);
  }

  private static Signs standardSigns() {
    return new Signs(
        /* before= */ 3,
        /* overhang= */ 4,
        /* over= */ 6,
        /* repeatOver= */ 1,
        /* rest= */ 0.5,
        /* besideNotes= */ 0.5,
        /* mostEnding= */ 20,
        /* codaAfter= */ 4,
        /* codaBefore= */ 2,
        /* words= */ 0.5,
        /* listed= */ 5,
        /* kept= */ 0.9);
  }
}
