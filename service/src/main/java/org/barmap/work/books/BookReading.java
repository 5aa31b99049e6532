package org.barmap.work.books;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.barmap.library.Pages.NewPage;
import org.barmap.library.WholeFile;
import org.barmap.map.Finding;
import org.barmap.page.file.PageFiles;
import org.barmap.sign.ReadPage;
import org.barmap.sign.StoredPage;
import org.barmap.work.PageLostException;
import org.barmap.work.PageReader;

/** Reads the pages of one book, each kept as soon as it is read. */
final class BookReading {

  private final PageReader reader;
  private final Path folder;
  private final Runnable ticks;
  private final List<ReadPage> pages = new ArrayList<>();
  private final List<String> failures = new ArrayList<>();
  private int index;
  private boolean again;
  private double seconds;

  /**
   * @param folder where its pages are kept
   * @param ticks runs after each page
   */
  BookReading(PageReader reader, Path folder, Runnable ticks) {
    this.reader = reader;
    this.folder = folder;
    this.ticks = ticks;
  }

  /** The pages of a file, as pictures. */
  record Opened(double seconds, List<NewPage> pages) {}

  /** The pages on a picture. */
  record Looked(double seconds, List<Page> pages) {}

  /**
   * A page.
   *
   * @param stored as {@link StoredPage} has it; empty when it can't be read
   * @param why what is wrong with it
   */
  record Page(Optional<String> stored, Optional<String> why) {}

  List<ReadPage> pages() {
    return pages;
  }

  List<String> failures() {
    return failures;
  }

  double seconds() {
    return seconds;
  }

  /** Tells whether a page was lost that may be read another time. */
  boolean again() {
    return again;
  }

  void read(FoundBook book) throws IOException {
    Files.createDirectories(folder);
    for (int i = 0; i < book.files().size(); i++) {
      Path file = book.files().get(i);
      String name = String.format(Locale.ROOT, "file-%04d", i + 1);
      Opened opened = opened(file, name);
      seconds += opened.seconds();
      for (int k = 0; k < opened.pages().size(); k++) {
        NewPage page = opened.pages().get(k);
        if (page.picture().isEmpty()) {
          index++;
          failures.add(page.finding().orElse(PageFiles.name(file) + " can't be read"));
        } else {
          take(page, PageFiles.name(file), String.format(Locale.ROOT, "%s-page-%04d", name, k + 1));
        }
        ticks.run();
      }
    }
  }

  private Opened opened(Path file, String name) throws IOException {
    Path kept = folder.resolve(name + ".json");
    Optional<Opened> there = UnderWay.kept(kept, Opened.class);
    if (there.isPresent()) {
      return there.get();
    }
    long start = System.nanoTime();
    Opened opened = new Opened(0, reader.open(linked(file, name), PageFiles.name(file)));
    opened = new Opened(since(start), opened.pages());
    boolean lost = opened.pages().stream().anyMatch(p -> p.picture().isEmpty());
    // what can't be opened is tried again with the next run, a defect of the file costs little
    if (!lost) {
      UnderWay.keep(kept, opened);
    }
    return opened;
  }

  /** The file under a name of ours: pictures of its pages are written beside that. */
  private Path linked(Path file, String name) throws IOException {
    Path link = folder.resolve(name);
    if (!Files.exists(link, LinkOption.NOFOLLOW_LINKS)) {
      try {
        Files.createSymbolicLink(link, file.toAbsolutePath());
      } catch (IOException | UnsupportedOperationException e) {
        try (InputStream in = Files.newInputStream(file)) {
          WholeFile.copy(in, link);
        }
      }
    }
    return link;
  }

  private void take(NewPage opened, String source, String name) throws IOException {
    Path kept = folder.resolve(name + ".json");
    Optional<Looked> there = UnderWay.kept(kept, Looked.class);
    if (there.isEmpty()) {
      try {
        there = Optional.of(looked(folder.resolve(opened.picture()), source));
        UnderWay.keep(kept, there.get());
      } catch (PageLostException e) {
        index++;
        again = true;
        failures.add(opened.source() + ": " + e.getMessage());
        return;
      }
    }
    seconds += there.get().seconds();
    for (Page page : there.get().pages()) {
      index++;
      page.stored().ifPresent(json -> pages.add(StoredPage.read(json, index)));
      if (page.stored().isEmpty()) {
        failures.add(page.why().orElse(opened.source() + " can't be read"));
      }
    }
  }

  private Looked looked(Path picture, String source) {
    long start = System.nanoTime();
    List<Page> read = new ArrayList<>();
    for (PageReader.Result result : reader.read(picture, source, index + 1)) {
      Optional<String> why = result.findings().stream().findFirst().map(Finding::text);
      read.add(new Page(result.page().map(StoredPage::write), why));
    }
    return new Looked(since(start), read);
  }

  private static double since(long start) {
    return (System.nanoTime() - start) / 1e9;
  }
}
