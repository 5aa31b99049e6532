package org.barmap.extract;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.apiguardian.api.API;
import org.barmap.map.BarMap;
import org.barmap.map.Finding;
import org.barmap.map.Outline;
import org.barmap.map.Severity;
import org.barmap.map.Stage;
import org.barmap.page.PageImage;
import org.barmap.page.PageResult;
import org.barmap.page.file.PageFiles;
import org.barmap.page.pixel.WorkStep;
import org.barmap.reckon.Reckoner;
import org.barmap.sign.ReadPage;
import org.barmap.sign.SignReader;
import org.barmap.staff.DrawnStaff;
import org.barmap.staff.FoundSystem;
import org.barmap.staff.StaffFinder;

/**
 * Reads page files into a bar map.
 *
 * <p>Opening one loads the models, so keep it; it may be used by several threads at once. Pages
 * stream: only the images of the page being read and of the next one are in memory. One page is
 * worked on by as many threads as there are processors.
 */
public final class Extractor implements AutoCloseable {
  private static final System.Logger LOG = System.getLogger(Extractor.class.getName());
  private final SignReader signs;

  private Extractor(SignReader signs) {
    this.signs = signs;
  }

  /** Loads the models. */
  public static Extractor open() {
    return new Extractor(SignReader.open());
  }

  /**
   * Reads a book.
   *
   * @param paths files and folders in the order of the book
   * @param options title and part
   * @param progress is told of every page and may stop the reading
   * @return the map of all pages that could be read, with a finding for each one that could not
   */
  public Extraction read(List<Path> paths, Options options, Progress progress) {
    PageFiles files = PageFiles.list(paths);
    List<Finding> findings = new ArrayList<>(files.findings());
    List<ReadPage> pages = new ArrayList<>();
    int done = 0;
    try (PagesAhead source = new PagesAhead(files.files())) {
      while (!progress.cancelled() && source.hasNext()) {
        PageResult result = source.next();
        done++;
        List<Finding> own = new ArrayList<>();
        for (Finding f : result.findings()) {
          own.add(f.onPage(done));
        }
        if (result instanceof PageResult.Loaded loaded) {
          pages.add(readPage(loaded.page(), done, own));
        }
        findings.addAll(own);
        int known = Math.max(done, files.files().size());
        progress.page(done, source.hasNext() ? known : done, result.source(), own);
      }
    }
    long start = WorkStep.start();
    BarMap map = new Reckoner().reckon(options.book(), pages);
    WorkStep.RECKONING.done(start);
    return new Extraction(map, findings);
  }

  /**
   * Reads one page and closes its image.
   *
   * @param index of the page in its book
   * @param findings takes what is wrong with it
   */
  @API(status = API.Status.INTERNAL)
  public ReadPage readPage(PageImage page, int index, List<Finding> findings) {
    try (page) {
      SignReader.Found found = found(page, index, findings);
      return read(page, index, found);
    }
  }

  private static ReadPage read(PageImage page, int index, SignReader.Found found) {
    return new ReadPage(
        index,
        page.source(),
        page.width(),
        page.height(),
        found.systems(),
        found.folio(),
        found.byHand());
  }

  /**
   * Reads one page with a line of music on it that a person drew a frame over, and closes its
   * image.
   *
   * @param index of the page in its book
   * @param frame pixels of the given file
   */
  @API(status = API.Status.INTERNAL)
  public ReadPage readPage(PageImage page, int index, Outline frame) {
    try (page) {
      List<FoundSystem> systems = DrawnStaff.among(page, StaffFinder.find(page), frame);
      return read(page, index, signs.read(page, systems));
    }
  }

  private SignReader.Found found(PageImage page, int index, List<Finding> findings) {
    try {
      long start = WorkStep.start();
      List<FoundSystem> systems = StaffFinder.find(page);
      WorkStep.STAVES.done(start);
      if (systems.isEmpty()) {
        findings.add(
            Finding.ofPage(
                Severity.DOUBT,
                Stage.STAFF,
                index,
                "no-staves",
                page.source() + ": no staves were found; is there music on this page?"));
      }
      return signs.read(page, systems);
    } catch (RuntimeException | StackOverflowError | OutOfMemoryError e) {
      // A defect met on one page must not cost the player the other pages of the book.
      LOG.log(System.Logger.Level.ERROR, "reading " + page.source() + " failed", e);
      findings.add(
          Finding.ofPage(
              Severity.ERROR,
              Stage.SIGN,
              index,
              "page-failed",
              page.source()
                  + ": this page could not be read; enter its bars by hand or photograph it"
                  + " again."));
      return SignReader.Found.NONE;
    }
  }

  @Override
  public void close() {
    signs.close();
  }
}
