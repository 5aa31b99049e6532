package org.barmap.exchange.musicxml.book;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.OptionalInt;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.IntStream;
import java.util.zip.ZipException;
import java.util.zip.ZipFile;
import org.barmap.exchange.musicxml.ScoreFile;
import org.barmap.exchange.musicxml.UnreadableMusicXmlException;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Book;
import org.barmap.map.Finding;
import org.barmap.map.MusicalNumber;

/**
 * A score in MusicXML, one part of which becomes a book without pages.
 *
 * <pre>
 * ScoreBook score = ScoreBook.read("saltmarsh.mxl", in);
 * OptionalInt part = score.part("Bass");
 * BarMap map = score.book(part.orElseThrow()).map();
 * </pre>
 */
public final class ScoreBook {
  private static final int MOST_PARTS = 200;
  private static final int HEAD = 256;

  private final ScoreFile file;

  private ScoreBook(ScoreFile file) {
    this.file = file;
  }

  /**
   * Tells whether a file is meant to be a score: XML, or a zip that names one. Whether it can be
   * read is another question.
   */
  public static boolean isScore(Path path) throws IOException {
    byte[] head;
    try (InputStream in = Files.newInputStream(path)) {
      head = in.readNBytes(HEAD);
    }
    if (head.length > 1 && head[0] == 'P' && head[1] == 'K') {
      try (ZipFile zip = new ZipFile(path.toFile())) {
        return zip.getEntry("META-INF/container.xml") != null;
      } catch (ZipException | IllegalArgumentException e) {
        return false;
      }
    }
    // UTF-8 and UTF-16 alike, with a mark of their order or without one
    String text = new String(head, StandardCharsets.ISO_8859_1);
    return text.replaceFirst("^(?:\u00EF\u00BB\u00BF|\u00FE\u00FF|\u00FF\u00FE)", "")
        .replace("\u0000", "")
        .stripLeading()
        .startsWith("<");
  }

  /**
   * Reads a score, plain or compressed; the stream is read to its end and left open.
   *
   * @param source what it is called, a file name
   * @throws UnreadableMusicXmlException when it is no MusicXML, is broken, or is larger than a
   *     score can be
   */
  public static ScoreBook read(String source, InputStream in)
      throws UnreadableMusicXmlException, IOException {
    ScoreFile file = ScoreFile.read(source, in);
    if (file.parts().stream().allMatch(p -> p.measures().isEmpty())) {
      throw new UnreadableMusicXmlException("the score has no bars");
    }
    return new ScoreBook(file);
  }

  /**
   * A part to choose.
   *
   * @param place 1 for the first
   * @param name as printed; its id where it has none
   * @param measures how many measures it has
   */
  public record Choice(int place, String name, int measures) {}

  /** Returns the parts in the order of the score; at least one. */
  public List<Choice> parts() {
    List<Choice> parts = new ArrayList<>();
    for (ScoreFile.Part part : file.parts()) {
      String name = Titles.clean(part.name());
      parts.add(
          new Choice(parts.size() + 1, name.isEmpty() ? part.id() : name, part.measures().size()));
    }
    return parts;
  }

  /**
   * Returns the part that must be meant: the only one; the one called so, or with this id, or at
   * this place ("2"); or else the only one whose name contains the words. Empty where several or
   * none may be.
   *
   * @param wanted what a person said; empty for nothing
   */
  public OptionalInt part(String wanted) {
    String said = wanted.strip().toLowerCase(Locale.ROOT);
    List<ScoreFile.Part> all = file.parts();
    if (said.isEmpty()) {
      return all.size() == 1 ? OptionalInt.of(0) : OptionalInt.empty();
    }
    int[] named = where(p -> p.name().toLowerCase(Locale.ROOT).equals(said));
    int[] known =
        named.length > 0 ? named : where(p -> p.id().toLowerCase(Locale.ROOT).equals(said));
    if (known.length == 0 && said.matches("\\d{1,3}")) {
      int place = Integer.parseInt(said);
      return place >= 1 && place <= Math.min(MOST_PARTS, all.size())
          ? OptionalInt.of(place - 1)
          : OptionalInt.empty();
    }
    int[] found =
        known.length > 0 ? known : where(p -> p.name().toLowerCase(Locale.ROOT).contains(said));
    return found.length == 1 ? OptionalInt.of(found[0]) : OptionalInt.empty();
  }

  private int[] where(Predicate<ScoreFile.Part> which) {
    return IntStream.range(0, file.parts().size())
        .filter(i -> which.test(file.parts().get(i)))
        .toArray();
  }

  /**
   * Returns one part as a book.
   *
   * @param part its index, from 0, as {@link #part} gives it
   * @throws UnreadableMusicXmlException when the part has no bars
   */
  public ImportedBook book(int part) throws UnreadableMusicXmlException {
    if (file.parts().get(part).measures().isEmpty()) {
      throw new UnreadableMusicXmlException("this part has no bars");
    }
    List<Cell> cells = Cells.of(file, part);
    boolean score = file.parts().size() > 1;
    List<Entries.Made> made = Entries.of(cells, score && prints(cells));
    Titles titles = Titles.of(file.score(), file.source());
    Headings.Found found =
        Headings.of(
            made.stream().map(Entries.Made::bar).toList(),
            made.stream().map(m -> cells.get(m.first()).number().restarts()).toList(),
            titles);
    Lines.Laid laid = laid(cells, made, found, !score);
    List<Bar> bars = Entries.lined(laid.bars());
    BarMap map =
        BarMap.of(
            new Book(titles.book(), parts().get(part).name()), laid.pages(), found.numbers(), bars);
    List<Finding> findings = new Remarks(cells, made, bars, found.unnamed()).all();
    return new ImportedBook(map.withFindings(findings), sources(cells, made));
  }

  /** A score prints its rests bar by bar, unless it says otherwise somewhere. */
  private static boolean prints(List<Cell> cells) {
    return cells.stream().noneMatch(c -> c.said().multiRest() > 1);
  }

  /** Lines are those of the file where it is this part's own print; a score's are not. */
  private Lines.Laid laid(
      List<Cell> cells, List<Entries.Made> made, Headings.Found found, boolean own) {
    Set<String> starts = new HashSet<>();
    for (MusicalNumber number : found.numbers()) {
      number.firstBar().ifPresent(starts::add);
    }
    List<Lines.Entry> entries = new ArrayList<>();
    for (int i = 0; i < made.size(); i++) {
      Bar bar = found.bars().get(i);
      Extra extra = cells.get(made.get(i).first()).extra();
      entries.add(
          new Lines.Entry(
              bar, own && extra.newLine(), own && extra.newPage(), starts.contains(bar.id())));
    }
    return Lines.lay(entries, file.source());
  }

  private static List<ImportedBook.Source> sources(List<Cell> cells, List<Entries.Made> made) {
    List<ImportedBook.Source> sources = new ArrayList<>();
    int at = 0;
    for (Entries.Made entry : made) {
      int measures = 0;
      double quarters = 0;
      for (Cell cell : cells.subList(entry.first(), entry.first() + entry.measures())) {
        measures += cell.measures();
        quarters += cell.extra().quarters();
      }
      sources.add(new ImportedBook.Source(at, measures, quarters));
      at += measures;
    }
    return sources;
  }
}
