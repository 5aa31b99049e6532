package org.barmap.page;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.Iterator;
import java.util.List;
import java.util.NoSuchElementException;
import java.util.Optional;
import java.util.Queue;
import java.util.concurrent.atomic.AtomicInteger;
import org.barmap.map.Finding;
import org.barmap.page.file.Document;
import org.barmap.page.file.FileKind;
import org.barmap.page.file.Guarded;
import org.barmap.page.file.PageFiles;
import org.barmap.page.file.PdfPages;
import org.barmap.page.file.Picture;
import org.barmap.page.file.TiffPages;
import org.barmap.page.file.UnreadableException;
import org.barmap.page.pixel.OpenCv;
import org.barmap.page.pixel.WorkStep;
import org.opencv.core.Mat;

/**
 * Reads page files one page at a time, in the order given.
 *
 * <p>Only the page just handed out is in memory. A file that can't be read gives one {@link
 * PageResult.Failed} and the next file goes on; no exception comes out of it.
 */
public final class PageSource implements Iterator<PageResult>, AutoCloseable {

  private static final long MAX_FILE = 1L << 30;

  /** So much is read of a pipe at once; bytes. */
  private static final int PIPED = 1 << 16;

  static {
    OpenCv.load(); // pages of PDF and TIFF files are copied into its images before anything else
  }

  private final Iterator<Path> files;
  private final Queue<PageResult> ready = new ArrayDeque<>();
  private Optional<Document> document = Optional.empty();
  private volatile String source = "";
  private final AtomicInteger opened = new AtomicInteger();
  private int next;

  /** Takes the files to read, as {@link PageFiles#files} gives them. */
  public PageSource(List<Path> files) {
    this.files = List.copyOf(files).iterator();
  }

  @Override
  public boolean hasNext() {
    return !ready.isEmpty() || document.isPresent() || files.hasNext();
  }

  /** Returns the next page; the caller closes the image of a loaded one. */
  @Override
  public PageResult next() {
    while (ready.isEmpty()) {
      if (document.isPresent()) {
        readPage(document.get());
      } else if (files.hasNext()) {
        open(files.next());
      } else {
        throw new NoSuchElementException();
      }
    }
    return ready.remove();
  }

  /** Returns what it is reading from, or has read from last; from any thread. */
  public String source() {
    return source;
  }

  /** Returns how many files it has begun; from any thread. */
  public int opened() {
    return opened.get();
  }

  private void open(Path file) {
    opened.incrementAndGet();
    source = PageFiles.name(file);
    next = 0;
    try {
      document = Optional.of(document(file));
    } catch (UnreadableException e) {
      ready.add(new PageResult.Failed(source, e.finding(source)));
    }
  }

  private void readPage(Document from) {
    int index = next++;
    try {
      long start = WorkStep.start();
      Mat picture = from.page(index);
      WorkStep.DECODE.done(start);
      Optional<Finding> flaw = from.flaw().map(f -> f.doubt(source));
      String what = "page " + (index + 1);
      for (PageResult page :
          Guarded.plainly(what, () -> Upright.pages(source, index + 1, picture))) {
        ready.add(flaw.map(page::and).orElse(page));
      }
    } catch (UnreadableException e) {
      ready.add(new PageResult.Failed(source, e.finding(source)));
    }
    if (next >= from.pages()) {
      closeDocument();
    }
  }

  /**
   * Opens a file by what it begins with, not by its name.
   *
   * @throws UnreadableException when it is none that can be read; says why
   */
  public static Document document(Path file) throws UnreadableException {
    try {
      if (!Files.isRegularFile(file) && Files.exists(file) && !Files.isDirectory(file)) {
        return piped(file);
      }
      long size = Files.size(file);
      if (size == 0) {
        throw new UnreadableException("empty", "the file is empty; copy it again.");
      }
      if (!Files.isReadable(file)) {
        throw PageFiles.noAccess();
      }
      if (size > MAX_FILE) {
        throw new UnreadableException("too-large", "the file is over 1 GB; split it.");
      }
      FileKind kind =
          FileKind.of(head(file))
              .orElseThrow(
                  () ->
                      new UnreadableException(
                          "not-a-page",
                          "this is no PNG, JPEG, TIFF or PDF, whatever its name says; convert"
                              + " it."));
      if (kind == FileKind.PDF) {
        return Guarded.open(() -> PdfPages.open(file));
      }
      byte[] bytes = Files.readAllBytes(file);
      return Guarded.open(
          () ->
              switch (kind) {
                case PNG -> Picture.png(bytes);
                case JPEG -> Picture.jpeg(bytes);
                default -> TiffPages.open(bytes);
              });
    } catch (AccessDeniedException e) {
      throw PageFiles.noAccess();
    } catch (IOException e) {
      throw new UnreadableException("no-access", "it could not be read from disk; copy it again.");
    }
  }

  /** Opens what comes through a pipe, which can be read only once, by way of a file. */
  private static Document piped(Path pipe) throws IOException, UnreadableException {
    Path file = Files.createTempFile("barmap", ".page");
    try (InputStream in = Files.newInputStream(pipe);
        OutputStream out = Files.newOutputStream(file)) {
      byte[] part = new byte[PIPED];
      long all = 0;
      // one byte too many is enough to be refused for
      for (int n = in.read(part); n >= 0 && all <= MAX_FILE; n = in.read(part)) {
        out.write(part, 0, n);
        all += n;
      }
      out.close();
      // what is open stays readable when its name is gone
      return document(file);
    } finally {
      Files.deleteIfExists(file);
    }
  }

  private static byte[] head(Path file) throws IOException {
    try (var in = Files.newInputStream(file)) {
      return in.readNBytes(FileKind.HEAD);
    }
  }

  private void closeDocument() {
    document.ifPresent(Document::close);
    document = Optional.empty();
  }

  /** Closes the file being read and the pages made but not handed out. */
  @Override
  public void close() {
    closeDocument();
    for (PageResult result : ready) {
      if (result instanceof PageResult.Loaded loaded) {
        loaded.page().close();
      }
    }
    ready.clear();
  }
}
