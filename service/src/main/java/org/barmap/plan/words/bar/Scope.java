package org.barmap.plan.words.bar;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.map.Bar;
import org.barmap.map.Meter;
import org.barmap.map.Word;
import org.barmap.plan.change.Address;
import org.barmap.plan.change.Addresses;
import org.barmap.plan.change.Found;
import org.barmap.plan.change.Place;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.say.Told.PrintedRepeat;
import org.barmap.plan.change.term.Numerals;

/** One number as words are looked up in it; made once for a whole list. */
public final class Scope {
  private static final Pattern AFTER =
      phrase("(?:the\\s+)?(" + Numerals.CARDINAL + ")(?:\\s+bars?)?\\s+after\\s+(.+)");
  private static final Pattern IN_BEATS =
      phrase("\\b(?:in\\s+(one|two|three|four|six|1|2|3|4|6))\\b");

  private final WrittenNumber number;
  private final String chair;
  private final Addresses addresses;
  private final List<PrintedRepeat> repeats;

  /**
   * Makes a number ready.
   *
   * @param chair whose part the book is; empty when unknown
   */
  public Scope(WrittenNumber number, String chair) {
    this.number = number;
    this.chair = chair;
    this.addresses = new Addresses(number);
    this.repeats = Repeats.of(number);
  }

  /** Returns the number. */
  public WrittenNumber number() {
    return number;
  }

  /** Returns whose part the book is; empty when unknown. */
  public String chair() {
    return chair;
  }

  /** Returns the printed repeats, in the order of the page. */
  public List<PrintedRepeat> repeats() {
    return repeats;
  }

  /**
   * The bars that words for one may mean.
   *
   * @param places empty when refused
   * @param mark the words are a rehearsal mark and nothing else
   * @param why what is wrong, or why there is more than one
   * @param candidates words that would be understood
   */
  public record Looked(List<Place> places, boolean mark, String why, List<String> candidates) {
    /** Takes defensive copies. */
    public Looked {
      places = List.copyOf(places);
      candidates = List.copyOf(candidates);
    }

    static Looked refused(String why, List<String> candidates) {
      return new Looked(List.of(), false, why, candidates);
    }
  }

  /** Looks a bar up. "4 after F" may be four bars on from F, or F's fourth: some count F itself. */
  public Looked find(String words) {
    Optional<Address> address = Address.parse(words);
    Found found = address.map(addresses::find).orElseGet(() -> addresses.find(words));
    if (found instanceof Found.Refused refused) {
      return new Looked(refused.places(), false, refused.text(), refused.candidates());
    }
    Place at = ((Found.At) found).place();
    if (at.beat().isPresent() && number.barAt(at.slot()).meter().isEmpty()) {
      return Looked.refused(addresses.noMeter(at.slot()), List.of(number.nameAt(at.slot())));
    }
    Matcher after = AFTER.matcher(words.strip());
    boolean some =
        after.matches()
            && Numerals.value(after.group(1)).orElse(0) > 1
            && Address.parse(after.group(2)).filter(addresses::namesMark).isPresent();
    if (some) {
      Place counted = new Place(addresses.moved(at.slot(), -1), at.beat());
      String why = "Some count the bar at " + after.group(2).strip() + " as the first, some don't";
      return new Looked(List.of(at, counted), false, why, List.of());
    }
    boolean mark =
        at.beat().isEmpty()
            && address
                .filter(a -> a.offset() == 0 && addresses.namesMark(a) && !saysBar(words))
                .isPresent();
    return new Looked(List.of(at), mark, "", List.of());
  }

  private static boolean saysBar(String words) {
    return words.strip().matches("(?i)(?:the\\s+)?(?:bar|measure)\\s.*");
  }

  int moved(int slot, int bars) {
    return addresses.moved(slot, bars);
  }

  int sectionEnd(int slot) {
    return addresses.sectionEnd(slot);
  }

  /** Returns how a bar is called; slots are its bars one by one, from 0. */
  public String nameAt(int slot) {
    return number.nameAt(slot);
  }

  /** Returns how many bars there are. */
  public int slots() {
    return number.slots();
  }

  /** Returns how many bars before the first one are pickups, which nobody counts. */
  int pickups() {
    int bars = 0;
    while (bars < number.slots() && number.nameAt(bars).equals("0")) {
      bars++;
    }
    return bars;
  }

  /** Returns the meter of a bar, where one is known. */
  public Optional<Meter> meterAt(int slot) {
    return number.barAt(slot).meter();
  }

  /** Returns the beats of a bar in the meter's lower figure; 0 where no meter is known. */
  int beatsAt(int slot) {
    return meterAt(slot).map(Meter::beats).orElse(0);
  }

  /**
   * Returns how many of the meter's lower figure make one beat as the page says it is shown; 1
   * where that is the same. A compound meter is shown in dotted beats where nothing else is
   * printed.
   */
  int perShownBeat(int slot) {
    Optional<Meter> meter = meterAt(slot);
    if (meter.isEmpty()) {
      return 1;
    }
    int beats = meter.get().beats();
    boolean compound = beats > 3 && beats % 3 == 0 && meter.get().unit() >= 8;
    int shown = printed(slot, meter.get()).orElse(compound ? beats / 3 : beats);
    return shown > 0 && beats % shown == 0 ? beats / shown : 1;
  }

  /** "In two", printed at the bar or before it, while the meter holds. */
  private OptionalInt printed(int slot, Meter meter) {
    for (int i = number.entryAt(slot); i >= 0; i--) {
      Bar bar = number.bars().get(i);
      if (bar.meter().filter(m -> m.sameAs(meter)).isEmpty()) {
        return OptionalInt.empty();
      }
      for (Word word : bar.words()) {
        Matcher beats = IN_BEATS.matcher(word.text());
        if (beats.find()) {
          return Numerals.value(beats.group(1));
        }
      }
    }
    return OptionalInt.empty();
  }

  /** Returns the first beat of the next bar, or the beat that follows one. */
  Place next(Place at) {
    double beat = at.beat().orElse(Double.MAX_VALUE) + 1;
    return beat < beatsAt(at.slot()) + 1.0
        ? new Place(at.slot(), OptionalDouble.of(beat))
        : Place.bar(moved(at.slot(), 1));
  }

  /** Returns what lies right before a bar, or before a beat of it. */
  Place before(Place at) {
    double beat = at.beat().orElse(1) - 1;
    return beat >= 1
        ? new Place(at.slot(), OptionalDouble.of(beat))
        : Place.bar(moved(at.slot(), -1));
  }
}
