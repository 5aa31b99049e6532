package org.barmap.page.file;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.barmap.map.Finding;

/**
 * The page files named by a list of files and folders.
 *
 * @param files in reading order
 * @param findings paths that give no pages, for instance an empty folder
 */
public record PageFiles(List<Path> files, List<Finding> findings) {

  private static final Set<String> ENDINGS =
      Set.of("png", "jpg", "jpeg", "jpe", "tif", "tiff", "pdf");

  /** Takes defensive copies. */
  public PageFiles {
    files = List.copyOf(files);
    findings = List.copyOf(findings);
  }

  /**
   * Lists files in the order given; a folder stands for its page files sorted naturally ("page-2"
   * before "page-10"), subfolders not entered. A file named outright is listed whatever its ending.
   */
  public static PageFiles list(List<Path> paths) {
    List<Path> files = new ArrayList<>();
    List<Finding> findings = new ArrayList<>();
    for (Path path : paths) {
      try {
        if (Files.isDirectory(path)) {
          List<Path> inside = inFolder(path);
          if (inside.isEmpty()) {
            throw new UnreadableException(
                "no-pages", "the folder holds no PNG, JPEG, TIFF or PDF; name another one.");
          }
          files.addAll(inside);
        } else if (!Files.exists(path)) {
          throw new UnreadableException("not-there", "there is no such file; check the name.");
        } else {
          files.add(path);
        }
      } catch (UnreadableException e) {
        findings.add(e.finding(name(path)));
      } catch (IOException e) {
        findings.add(noAccess().finding(name(path)));
      }
    }
    return new PageFiles(files, findings);
  }

  /** Says that a file may not be read. */
  public static UnreadableException noAccess() {
    return new UnreadableException(
        "no-access", "it may not be read; change its permissions or copy it elsewhere.");
  }

  /** Returns a file's name as findings say it. */
  public static String name(Path path) {
    return Optional.ofNullable(path.getFileName()).orElse(path).toString();
  }

  private static List<Path> inFolder(Path folder) throws IOException {
    try (Stream<Path> list = Files.list(folder)) {
      return list.filter(f -> ENDINGS.contains(ending(f)))
          .filter(f -> !name(f).startsWith(".") && Files.isRegularFile(f))
          .sorted((a, b) -> NaturalOrder.INSTANCE.compare(name(a), name(b)))
          .toList();
    } catch (java.io.UncheckedIOException e) {
      throw new IOException(e);
    }
  }

  private static String ending(Path file) {
    String name = name(file);
    return name.substring(name.lastIndexOf('.') + 1).toLowerCase(Locale.ROOT);
  }
}
