package org.barmap.exchange;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.barmap.exchange.mei.MeiWriter;
import org.barmap.exchange.midi.ClickTrack;
import org.barmap.exchange.midi.NoTempoException;
import org.barmap.exchange.midi.NothingPlayedException;
import org.barmap.exchange.musicxml.write.MusicXmlWriter;
import org.barmap.exchange.musicxml.write.NotSaid;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.MusicalNumber;
import org.barmap.map.rule.BookNumbers;
import org.barmap.plan.Plan;

/**
 * A file for programs that know notation or sound: MusicXML, MEI, MIDI.
 *
 * @param type media type
 * @param ending of its name, without a dot in front
 * @param bytes what is in it
 */
public record NotationFile(String type, String ending, byte[] bytes) {
  /** The slowest and the fastest that may be asked for where no tempo is known, beats a minute. */
  public static final int LEAST_TEMPO = 20;

  public static final int MOST_TEMPO = 300;

  /** What a book can be written as. */
  public enum Form {
    /** The whole book, or one number of it, as MusicXML 4.0. */
    MUSICXML,
    /** Every number as a file of MusicXML of its own, in a zip. */
    MUSICXML_NUMBERS,
    /** The bars as they are played, cuts applied and repeats written out, as MusicXML. */
    MUSICXML_PLAYED,
    /** The printed book with signs a program plays as the plan does, as MusicXML. */
    MUSICXML_PLAYABLE,
    /** What MusicXML leaves out, in sentences. */
    MUSICXML_LEFT_OUT,
    /** The structure with the place of every bar on its page, as MEI 5. */
    MEI,
    /** The click of the order of play as a standard MIDI file. */
    MIDI;

    /** Returns the word for it, {@code musicxml-numbers}. */
    public String word() {
      return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** Returns the form of a word. */
    public static Optional<Form> of(String word) {
      for (Form form : values()) {
        if (form.word().equals(word)) {
          return Optional.of(form);
        }
      }
      return Optional.empty();
    }

    @Override
    public String toString() {
      return word();
    }
  }

  /**
   * What is written.
   *
   * @param map at least one bar
   * @param plan asked for only where the form needs it
   * @param number label of the one number that is wanted; empty for all
   * @param tempo beats a minute where no tempo is known
   */
  public record Source(
      BarMap map, Supplier<Plan> plan, Optional<String> number, OptionalDouble tempo) {}

  /**
   * Writes a book in a form.
   *
   * @throws NotWrittenException when it can't be: no bars, no such number, a tempo missing; the
   *     message is for the person who asked
   */
  public static NotationFile of(Form form, Source source) throws NotWrittenException, IOException {
    if (source.map().bars().isEmpty()) {
      throw new NotWrittenException("There are no bars to write yet");
    }
    return switch (form) {
      case MUSICXML -> xml("musicxml", musicXml(source.map(), source.number()));
      case MUSICXML_PLAYED ->
          xml(
              "played.musicxml",
              musicXml(PlayedMap.of(source.map(), source.plan().get()), source.number()));
      case MUSICXML_PLAYABLE ->
          xml(
              "playable.musicxml",
              musicXml(PlayableMap.of(source.map(), source.number().isPresent()), source.number()));
      case MUSICXML_NUMBERS ->
          new NotationFile("application/zip", "musicxml.zip", numbers(source.map()));
      case MUSICXML_LEFT_OUT ->
          new NotationFile(
              "text/plain; charset=utf-8",
              "left-out.txt",
              leftOut(source).getBytes(StandardCharsets.UTF_8));
      case MEI -> new NotationFile("application/mei+xml", "mei", mei(source.map()));
      case MIDI -> new NotationFile("audio/midi", "mid", midi(source));
    };
  }

  private static NotationFile xml(String ending, byte[] bytes) {
    return new NotationFile("application/vnd.recordare.musicxml+xml", ending, bytes);
  }

  private static byte[] musicXml(BarMap map, Optional<String> number)
      throws NotWrittenException, IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    if (number.isPresent()) {
      MusicalNumber wanted = number(map, number.get());
      writable(map.barsOf(wanted));
      MusicXmlWriter.write(map, wanted, out);
    } else {
      writable(map.bars());
      MusicXmlWriter.write(map, out);
    }
    return out.toByteArray();
  }

  /** What is played may have no bars, or repeat them very often. */
  private static void writable(List<Bar> bars) throws NotWrittenException {
    long total = bars.stream().mapToLong(Bar::count).sum();
    if (total == 0) {
      throw new NotWrittenException("Nothing is played");
    }
    if (total > MusicXmlWriter.MAX_MEASURES) {
      throw new NotWrittenException("These are " + total + " bars, too many for MusicXML");
    }
  }

  private static MusicalNumber number(BarMap map, String label) throws NotWrittenException {
    return MusicXmlWriter.number(map, label)
        .filter(n -> !map.barsOf(n).isEmpty())
        .orElseThrow(
            () -> new NotWrittenException("There is no No. " + label + " with bars in it"));
  }

  /** A file for each number that has bars; a book without numbers is one file. */
  private static byte[] numbers(BarMap map) throws NotWrittenException, IOException {
    writable(map.bars());
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (ZipOutputStream zip = new ZipOutputStream(out)) {
      int place = 0;
      for (MusicalNumber number : BookNumbers.of(map)) {
        if (!map.barsOf(number).isEmpty()) {
          place++;
          String name = (number.label() + " " + number.title()).replaceAll("[^A-Za-z0-9]+", "-");
          String safe = name.replaceAll("^-+|-+$", "");
          zip.putNextEntry(
              new ZipEntry(
                  String.format(
                      Locale.ROOT,
                      "%03d-%s.musicxml",
                      place,
                      safe.substring(0, Math.min(60, safe.length())))));
          MusicXmlWriter.write(map, number, zip);
          zip.closeEntry();
        }
      }
      if (place == 0) {
        zip.putNextEntry(new ZipEntry("book.musicxml"));
        MusicXmlWriter.write(map, zip);
        zip.closeEntry();
      }
    }
    return out.toByteArray();
  }

  private static String leftOut(Source source) throws NotWrittenException {
    List<NotSaid> all =
        source.number().isPresent()
            ? NotSaid.of(source.map(), number(source.map(), source.number().get()))
            : NotSaid.of(source.map());
    return all.stream().map(n -> n.says() + "\n").collect(Collectors.joining());
  }

  private static byte[] mei(BarMap map) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    MeiWriter.write(map, out);
    return out.toByteArray();
  }

  private static byte[] midi(Source source) throws NotWrittenException, IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try {
      ClickTrack.write(source.plan().get(), source.map(), source.number(), source.tempo(), out);
    } catch (NoTempoException | NothingPlayedException e) {
      throw new NotWrittenException(String.valueOf(e.getMessage()), e);
    }
    return out.toByteArray();
  }
}
