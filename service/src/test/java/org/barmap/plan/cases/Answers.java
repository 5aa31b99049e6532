package org.barmap.plan.cases;

import tools.jackson.databind.JsonNode;

/**
 * What a program must be able to say about a book and its changes, one method for each ask of the
 * trade's cases. {@code README.md} beside the cases tells the shape of every answer, and its words;
 * whoever answers in other words of its own translates here.
 */
public interface Answers {

  /** Returns the bars of a number as they sound, as text. */
  JsonNode order(Situation s, String number);

  /** Returns how much of a number is played: an object. */
  JsonNode played(Situation s, String number);

  /** Returns the rests of a number in the order of play: a list. */
  JsonNode rests(Situation s, String number);

  /** Returns all turns of the book in the order of play: a list. */
  JsonNode turns(Situation s);

  /** Returns the side on which a page lies: text. */
  JsonNode side(Situation s, int page);

  /** Returns what is in force at a bar in one pass: an object. */
  JsonNode state(Situation s, String number, String bar, int pass);

  /** Returns pass by pass whether the player plays in a bar: a list. */
  JsonNode playing(Situation s, String number, String bar);

  /** Returns the marks to write in the whole book: a list. */
  JsonNode marks(Situation s);

  /** Returns the marks to write in a number: a list. */
  JsonNode marks(Situation s, String number);

  /** Returns what is asked back: a list. */
  JsonNode questions(Situation s);

  /** Returns what is told: a list. */
  JsonNode told(Situation s);

  /** Returns what a sentence means: an object. */
  JsonNode understood(Situation s, String words);

  /** Returns what a cut leaves out and where one lands, change 1 being the first: an object. */
  JsonNode landing(Situation s, int change);

  /** Returns changes of instrument, bow, mute and tuning in the order of play: a list. */
  JsonNode instruments(Situation s);

  /** Returns what follows a number: an object. */
  JsonNode link(Situation s, String after);

  /** Returns a number's line of the run sheet: an object. */
  JsonNode runSheet(Situation s, String number);

  /** Returns the length of the night: an object. */
  JsonNode night(Situation s);

  /** Returns what hangs on something that nobody has looked at: a list. */
  JsonNode carried(Situation s);

  /** Returns how many pages were looked at: an object. */
  JsonNode checked(Situation s);

  /** Returns the ways to make a turn in one pass: a list. */
  JsonNode advice(Situation s, int from, int to, int pass);

  /** Returns the beats of a number bar by bar as they sound, as text. */
  JsonNode click(Situation s, String number);

  /** Returns the bar that another chair's bar is in this book: text. */
  JsonNode aligned(Situation s, String number, String bar);
}
