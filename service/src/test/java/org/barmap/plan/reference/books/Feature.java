package org.barmap.plan.reference.books;

/** What a random book or its changes may have; each has its own knob in {@link Knobs}. */
public enum Feature {
  /** More than one number. */
  NUMBERS,
  /** Numbers that are tacet in print. */
  TACET_PRINT,
  /** A pickup, bar 0. */
  PICKUPS,
  /** Multi-bar rests. */
  RESTS,
  /** Plain repeats. */
  REPEATS,
  /** Repeats with endings, also lists of them. */
  ENDINGS,
  /** A first ending alone, what follows being the second. */
  LONE_ENDINGS,
  /** Endings numbered alike, so that bar numbers occur twice. */
  ALIKE_ENDINGS,
  /** A repeat in a repeat. */
  NESTED,
  /** A first repeat without its forward sign. */
  OPEN_REPEATS,
  /** A repeat before the endings of another. */
  NESTED_IN_ENDINGS,
  /** Up to six endings. */
  MORE_ENDINGS,
  /** A D.C. or D.S. in a last ending, a segno where a repeat begins. */
  SIGNS_IN_REPEATS,
  /** A count at a backward repeat. */
  TIMES,
  /** "3X" over a bar by itself. */
  MARKED_BARS,
  /** D.C. and D.S. */
  JUMPS,
  /** To Coda and a coda after a jump. */
  CODAS,
  /** A Fine after a jump. */
  FINES,
  /** "with repeats" in print. */
  WITH_REPEATS,
  /** VAMP or SAFETY printed over a repeat. */
  PRINTED_OPENS,
  /** Bars with letters, 23A. */
  LABELS,
  /** Rehearsal marks. */
  MARKS,
  /** A meter and a tempo over the first bar of a number. */
  FIRST_BAR,
  /** Meters drawn. */
  METERS,
  /** Keys drawn. */
  KEYS,
  /** Tempo words with and without figures. */
  TEMPOS,
  /** Instruments, bow, mute. */
  HANDS,
  /** "in two". */
  BEATS,
  /** "2nd X only". */
  PASS_WORDS,
  /** New lines of music, also in repeats. */
  LINES,
  /** New pages. */
  PAGES,
  /** Signs at random places, mostly nonsense. */
  STRAY_SIGNS,
  /** Cuts by bars. */
  CUTS,
  /** Cuts by beats. */
  BEAT_CUTS,
  /** Cuts in one pass. */
  PASS_CUTS,
  /** "Only the 2nd time", "not the first time", said by the director. */
  PASSES_SAID,
  /** Play times. */
  PLAYS,
  /** Vamps and safeties. */
  OPENS,
  /** Insertions behind a bar. */
  INSERTS,
  /** Insertions before a bar. */
  INSERTS_BEFORE,
  /** Bars that were cut and are in again. */
  RESTORES,
  /** Jumps back, a D.C. that is not taken, repeats after it. */
  JUMPS_SAID,
  /** Another meter for bars; bars added in their own. */
  METERS_SAID,
  /** Vamps that are left behind one of their bars. */
  EXITS,
  /** Tacet and cut numbers. */
  TACETS,
  /** Another order of numbers. */
  REORDERS,
  /** Tempo, key, beats, instrument. */
  SETTINGS,
  /** Bars said in words: four before B. */
  WORDED,
  /** Bars that are not there. */
  BAD_ADDRESSES,
  /** A change given twice. */
  TWICE,
  /** A change kept but not counted. */
  OFF,
  /** The player's setting: repeats are taken again after a jump. */
  REPEATS_AFTER_JUMP
}
