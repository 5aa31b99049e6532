package org.barmap.exchange.midi;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import javax.sound.midi.InvalidMidiDataException;
import javax.sound.midi.MetaMessage;
import javax.sound.midi.MidiEvent;
import javax.sound.midi.MidiMessage;
import javax.sound.midi.MidiSystem;
import javax.sound.midi.Sequence;
import javax.sound.midi.ShortMessage;
import javax.sound.midi.Track;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Meter;
import org.barmap.map.rule.BookNumbers;
import org.barmap.plan.NumberPlan;
import org.barmap.plan.Plan;
import org.barmap.plan.change.term.Numerals;

/**
 * A plan's order of play as a click: a standard MIDI file of format 1. Its first track has tempo,
 * meter and markers (numbers, rehearsal marks, bar numbers, vamps, holds), its second the clicks,
 * on the percussion channel. Before each number one bar is counted in. A vamp is there once and a
 * hold lasts no longer than its beats; markers say so.
 */
public final class ClickTrack {
  /** Ticks of a quarter: thirds, fifths and 64ths of it are whole. */
  static final int RESOLUTION = 960;

  static final int STRONG = 76; // high wood block of General MIDI
  static final int WEAK = 77; // low wood block
  static final int COUNT_IN = 37; // side stick
  private static final int PERCUSSION = 9;
  // quiet: loud sound damages hearing, and who wants more turns it up
  private static final int LOUD = 64;
  private static final int SOFT = 44;
  private static final int SHORT = RESOLUTION / 16;
  private static final int MOST_TEXT = 200;
  private static final double SLOWEST = 4;
  private static final double MICROS = 1_000_000;
  private static final int LONGEST_TEMPO = 0xFFFFFF;

  private static final int META_TEXT = 0x01;
  private static final int META_NAME = 0x03;
  private static final int META_MARKER = 0x06;
  private static final int META_TEMPO = 0x51;
  private static final int META_METER = 0x58;
  private static final int CLOCKS = 24;

  private final Track conductor;
  private final Track clicks;
  private final OptionalDouble otherwise;
  private double at;
  private int tempo;
  private Optional<Meter> meter = Optional.empty();

  private ClickTrack(Sequence sequence, OptionalDouble otherwise) {
    this.conductor = sequence.createTrack();
    this.clicks = sequence.createTrack();
    this.otherwise = otherwise;
  }

  /**
   * Writes the numbers of a plan that are played, one after the other.
   *
   * @param number label of the one that is wanted; empty for all
   * @param beatsPerMinute beats a minute, as the director shows them, where no tempo is known
   * @throws NoTempoException when a tempo is missing and none was given
   * @throws NothingPlayedException when there is nothing to play, or no such number
   */
  public static void write(
      Plan plan,
      BarMap map,
      Optional<String> number,
      OptionalDouble beatsPerMinute,
      OutputStream out)
      throws NoTempoException, NothingPlayedException, IOException {
    try {
      MidiSystem.write(sequence(plan, map, number, beatsPerMinute), 1, out);
    } catch (InvalidMidiDataException e) {
      throw new IOException("the click could not be written as MIDI", e);
    }
  }

  static Sequence sequence(
      Plan plan, BarMap map, Optional<String> number, OptionalDouble beatsPerMinute)
      throws NoTempoException, NothingPlayedException, InvalidMidiDataException {
    Sequence sequence = new Sequence(Sequence.PPQ, RESOLUTION);
    ClickTrack track = new ClickTrack(sequence, beatsPerMinute);
    track.text(track.conductor, META_NAME, map.book().title() + ", click");
    track.text(track.clicks, META_NAME, "Click");
    Map<String, Bar> written = map.barsById();
    boolean any = false;
    for (NumberPlan planned : plan.numbers()) {
      if (number.isEmpty() || number.get().equals(planned.label())) {
        List<ClickBar> bars = ClickBars.of(planned, written);
        if (!bars.isEmpty()) {
          track.number(planned, bars);
          any = true;
        }
      }
    }
    if (!any) {
      throw new NothingPlayedException(
          number
              .map(n -> "There is no No. " + n + " with bars to play")
              .orElse("Nothing is played"));
    }
    track.end(track.conductor);
    track.end(track.clicks);
    return sequence;
  }

  private void number(NumberPlan planned, List<ClickBar> bars)
      throws NoTempoException, InvalidMidiDataException {
    String name = BookNumbers.spoken(planned.label());
    String titled = (name + " " + planned.title()).strip();
    long without = bars.stream().filter(b -> b.pace().isEmpty()).count();
    if (without > 0 && otherwise.isEmpty()) {
      throw new NoTempoException(
          (name.isEmpty() ? "This book" : name)
              + " has "
              + without
              + (without == 1 ? " bar" : " bars")
              + " of unknown tempo: say how many beats a minute");
    }
    ClickBar first = bars.get(0);
    meter(first);
    mark(titled.isEmpty() ? "count-in" : titled + ", count-in");
    countIn(first);
    for (ClickBar bar : bars) {
      bar(bar);
    }
  }

  /** One whole bar at the tempo the first one begins with. */
  private void countIn(ClickBar first) throws InvalidMidiDataException {
    double whole = first.meter().map(Meter::quarters).orElse(4.0);
    ClickBar.Tempo pace = pace(first);
    tempo(60 / pace.from());
    for (double q = 0; q < whole - first.share() / 2; q += first.share()) {
      click(at + q, COUNT_IN, q == 0);
    }
    at += whole;
  }

  private void bar(ClickBar bar) throws InvalidMidiDataException {
    meter(bar);
    List<String> said = new ArrayList<>(bar.markers());
    said.add(
        0, bar.name() + (bar.pass() > 1 ? " (" + Numerals.ordinal(bar.pass()) + " time)" : ""));
    mark(String.join(" · ", said));
    if (bar.meter().isEmpty()) {
      text(conductor, META_TEXT, "no meter known here: clicked as 4/4");
    }
    if (bar.pace().isEmpty()) {
      text(conductor, META_TEXT, "no tempo known here: clicked as asked for");
    }
    ClickBar.Tempo pace = pace(bar);
    double beat = Math.ceil(bar.cutStart() / bar.share() - 1e-6);
    double next = beat * bar.share() - bar.cutStart();
    stretch(bar, pace, 0, Math.min(next, bar.quarters()));
    for (double q = next; q < bar.quarters() - 1e-6; q += bar.share()) {
      if (!bar.pause()) {
        click(at + q, beat == 0 ? STRONG : WEAK, beat == 0);
      }
      stretch(bar, pace, q, Math.min(q + bar.share(), bar.quarters()));
      beat++;
    }
    at += bar.quarters();
  }

  /** Sets the tempo of a stretch of a bar, so that it lasts as long as it does. */
  private void stretch(ClickBar bar, ClickBar.Tempo pace, double from, double to)
      throws InvalidMidiDataException {
    if (to - from > 1e-6) {
      double seconds =
          pace.seconds(from / bar.quarters(), to / bar.quarters(), to - from) / (to - from);
      double here = at;
      at += from;
      tempo(seconds);
      at = here;
    }
  }

  private ClickBar.Tempo pace(ClickBar bar) {
    double set = Math.max(SLOWEST, otherwise.orElse(0) * bar.share());
    ClickBar.Tempo pace = bar.pace().orElse(new ClickBar.Tempo(set, set));
    return new ClickBar.Tempo(Math.max(SLOWEST, pace.from()), Math.max(SLOWEST, pace.to()));
  }

  /** Takes seconds a quarter. */
  private void tempo(double seconds) throws InvalidMidiDataException {
    int micros = (int) Math.min(LONGEST_TEMPO, Math.round(seconds * MICROS));
    if (micros != tempo) {
      tempo = micros;
      meta(
          conductor,
          META_TEMPO,
          new byte[] {(byte) (micros >> 16), (byte) (micros >> 8), (byte) micros});
    }
  }

  private void meter(ClickBar bar) throws InvalidMidiDataException {
    Meter now = bar.meter().orElse(new Meter(4, 4, false));
    if (meter.filter(m -> m.sameAs(now)).isEmpty()) {
      meter = Optional.of(now);
      int clocks = (int) Math.max(1, Math.min(255, Math.round(bar.share() * CLOCKS)));
      meta(
          conductor,
          META_METER,
          new byte[] {
            (byte) now.beats(),
            (byte) Integer.numberOfTrailingZeros(now.unit()),
            (byte) clocks,
            8 // 32nds of a quarter
          });
    }
  }

  private void click(double quarter, int key, boolean strong) throws InvalidMidiDataException {
    long tick = Math.round(quarter * RESOLUTION);
    add(
        clicks,
        new ShortMessage(ShortMessage.NOTE_ON, PERCUSSION, key, strong ? LOUD : SOFT),
        tick);
    add(clicks, new ShortMessage(ShortMessage.NOTE_OFF, PERCUSSION, key, 0), tick + SHORT);
  }

  private void mark(String text) throws InvalidMidiDataException {
    text(conductor, META_MARKER, text);
  }

  private void text(Track track, int type, String text) throws InvalidMidiDataException {
    String clean = text.replaceAll("\\p{Cntrl}+", " ").strip();
    String some = clean.length() > MOST_TEXT ? clean.substring(0, MOST_TEXT) : clean;
    meta(track, type, some.getBytes(StandardCharsets.UTF_8));
  }

  private void meta(Track track, int type, byte[] data) throws InvalidMidiDataException {
    add(track, new MetaMessage(type, data, data.length), Math.round(at * RESOLUTION));
  }

  /** The last bar lasts as long as it does, not only to its last click. */
  private void end(Track track) throws InvalidMidiDataException {
    meta(track, META_TEXT, "end".getBytes(StandardCharsets.UTF_8));
  }

  private static void add(Track track, MidiMessage message, long tick) {
    track.add(new MidiEvent(message, tick));
  }
}
