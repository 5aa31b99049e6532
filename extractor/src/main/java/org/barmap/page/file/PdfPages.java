package org.barmap.page.file;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Optional;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.cos.COSObject;
import org.apache.pdfbox.io.MemoryUsageSetting;
import org.apache.pdfbox.io.RandomAccessReadBufferedFile;
import org.apache.pdfbox.pdmodel.DefaultResourceCache;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.encryption.InvalidPasswordException;
import org.apache.pdfbox.pdmodel.graphics.PDXObject;
import org.barmap.page.pixel.PageSettings;
import org.opencv.core.Mat;

/** A PDF file, each page drawn at 300 dpi or, when it is one scan, at the scan's own resolution. */
public final class PdfPages implements Document {

  private static final PageSettings.Pdf SET = PageSettings.STANDARD.pdf();

  /** Part of the scratch data that is kept in memory. */
  private static final long IN_MEMORY = 4;

  private static final long SCRATCH_BYTES = 256L << 20;

  static {
    Jpeg2000Reader.register();
  }

  private final PDDocument document;
  private final PdfDrawing drawing;

  private PdfPages(PDDocument document) {
    this.document = document;
    this.drawing = new PdfDrawing(document);
  }

  /** Opens a PDF. */
  public static PdfPages open(Path file) throws UnreadableException {
    PDDocument document = null;
    try {
      document =
          Loader.loadPDF(
              new RandomAccessReadBufferedFile(file.toFile()),
              MemoryUsageSetting.setupMixed(SCRATCH_BYTES / IN_MEMORY, SCRATCH_BYTES).streamCache);
      document.setResourceCache(new NoPictures());
      PdfTree.check(document.getDocumentCatalog().getCOSObject());
      Document.checkPages(document.getNumberOfPages());
      return new PdfPages(document);
    } catch (InvalidPasswordException e) {
      throw new UnreadableException(
          "encrypted", "the PDF asks for a password; save a copy without one.");
    } catch (UnreadableException e) {
      closeQuietly(document);
      throw e;
    } catch (IOException | RuntimeException e) {
      closeQuietly(document);
      throw new UnreadableException("damaged", "the PDF is damaged; copy or export it again.");
    }
  }

  @Override
  public int pages() {
    return document.getNumberOfPages();
  }

  @Override
  public Mat page(int index) throws UnreadableException {
    try {
      PDPage page = document.getPage(index);
      PdfScan scan = PdfScan.of(page);
      PDRectangle box = page.getCropBox();
      double dpi = scan.dpi().orElse(SET.dpi());
      double inches =
          Math.max(1, box.getWidth())
              * Math.max(1, box.getHeight())
              / PdfScan.POINTS
              / PdfScan.POINTS;
      dpi = Math.min(dpi, Math.sqrt(SET.mostPixels() / inches));
      dpi =
          Math.min(
              dpi, SET.mostSide() * PdfScan.POINTS / Math.max(box.getWidth(), box.getHeight()));
      double scale = dpi / PdfScan.POINTS;
      Document.checkPage(Math.round(box.getWidth() * scale), Math.round(box.getHeight() * scale));
      return TiffPages.toGray(drawing.draw(index, (float) dpi));
    } catch (PdfDrawing.EndlessException e) {
      throw new UnreadableException(
          "too-much",
          "more is drawn on page " + (index + 1) + " of the PDF than can be read; scan that page.");
    } catch (IOException | RuntimeException e) {
      throw new UnreadableException(
          "damaged", "page " + (index + 1) + " of the PDF can't be drawn; export it again.");
    } catch (OutOfMemoryError e) {
      throw new UnreadableException(
          "too-large",
          "page " + (index + 1) + " of the PDF needs too much memory; export it at 300 dpi.");
    }
  }

  @Override
  public Optional<UnreadableException> flaw() {
    return drawing.flaw();
  }

  @Override
  public void close() {
    closeQuietly(document);
  }

  private static void closeQuietly(@org.jspecify.annotations.Nullable PDDocument document) {
    if (document == null) {
      return;
    }
    try {
      document.close();
    } catch (IOException e) {
      // Only temporary data is left behind, and it goes with the process.
    }
  }

  /** Keeps no decoded pictures: pages are drawn once, and a book of scans would fill the memory. */
  private static final class NoPictures extends DefaultResourceCache {
    @Override
    public void put(COSObject indirect, PDXObject object) {
      // Decoded again in the rare case that a page shows it twice.
    }
  }
}
