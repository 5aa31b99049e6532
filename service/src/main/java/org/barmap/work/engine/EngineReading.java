package org.barmap.work.engine;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.barmap.exchange.musicxml.MusicXmlReader;
import org.barmap.exchange.musicxml.UnreadableMusicXmlException;
import org.barmap.map.SecondReading;
import org.barmap.map.SecondReading.Measure;
import org.barmap.map.SecondReading.Part;

/** What an engine left in its folder, as one part. */
public final class EngineReading {

  /** Folders in folders, no deeper. */
  private static final int DEPTH = 4;

  private EngineReading() {}

  /**
   * Reads the files in the order of their names and joins them.
   *
   * @param wanted which part is this chair's; may be empty
   * @throws UnreadableMusicXmlException when there is nothing to read, or a file can't be read
   */
  public static Part read(Path out, String wanted, EngineLimits limits)
      throws UnreadableMusicXmlException, IOException {
    List<Path> files = files(out, limits);
    if (files.isEmpty()) {
      throw new UnreadableMusicXmlException("it left no .musicxml, .xml or .mxl file");
    }
    List<Measure> all = new ArrayList<>();
    String name = "";
    for (Path file : files) {
      Part part = own(MusicXmlReader.read(file), wanted);
      name = part.name();
      all.addAll(uncounted(part.measures()));
      if (all.size() > limits.measures()) {
        throw new UnreadableMusicXmlException("it left more bars than a book has");
      }
    }
    return new Part("P1", name, all);
  }

  /** Plain files only: a link could lead out of the folder, a pipe would be waited for. */
  private static List<Path> files(Path out, EngineLimits limits) throws IOException {
    try (Stream<Path> walk = Files.walk(out, DEPTH)) {
      return walk.limit(limits.files())
          .filter(f -> Files.isRegularFile(f, LinkOption.NOFOLLOW_LINKS))
          .filter(f -> isScore(f.getFileName().toString().toLowerCase(Locale.ROOT)))
          .sorted(Comparator.comparing(f -> out.relativize(f).toString()))
          .toList();
    }
  }

  private static boolean isScore(String name) {
    return name.endsWith(".musicxml") || name.endsWith(".xml") || name.endsWith(".mxl");
  }

  /** The part called as this chair's, else the longest: the others are lyrics, cues, leftovers. */
  private static Part own(SecondReading reading, String wanted) {
    List<Part> named = wanted.isBlank() ? List.of() : reading.partsNamed(wanted);
    List<Part> among = named.isEmpty() ? reading.parts() : named;
    Part longest = among.get(0);
    for (Part part : among) {
      longest = part.measures().size() > longest.measures().size() ? part : longest;
    }
    return longest;
  }

  /**
   * Takes away the numbers that were only counted from the file's first bar: every MusicXML measure
   * must have one, so they say nothing of what is printed. From where they jump on they do.
   */
  private static List<Measure> uncounted(List<Measure> measures) {
    List<Measure> out = new ArrayList<>();
    boolean counted = true;
    for (int i = 0; i < measures.size(); i++) {
      Measure m = measures.get(i);
      String first = measures.get(0).number();
      int begin = first.equals("0") ? 0 : 1;
      counted &= m.implicit() || m.number().equals(Integer.toString(begin + i));
      out.add(counted ? m.unnumbered() : m);
    }
    return out;
  }
}
