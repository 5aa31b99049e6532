package org.barmap.page.file;

import java.io.IOException;
import java.util.OptionalDouble;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDResources;
import org.apache.pdfbox.pdmodel.graphics.PDXObject;
import org.apache.pdfbox.pdmodel.graphics.image.PDImageXObject;
import org.barmap.page.pixel.PageSettings;

/**
 * Whether a PDF page is one scanned picture.
 *
 * @param dpi the picture's resolution on the page, when the page holds just one picture of a size
 *     that can fill it
 */
public record PdfScan(OptionalDouble dpi) {

  private static final PageSettings.Pdf SET = PageSettings.STANDARD.pdf();

  /** Points in an inch. */
  static final double POINTS = 72;

  /** Looks at a page's pictures without decoding them. */
  public static PdfScan of(PDPage page) throws IOException {
    PDResources resources = page.getResources();
    if (resources == null) {
      return new PdfScan(OptionalDouble.empty());
    }
    int pictures = 0;
    OptionalDouble dpi = OptionalDouble.empty();
    boolean fonts = resources.getFontNames().iterator().hasNext();
    for (COSName name : resources.getXObjectNames()) {
      if (!resources.isImageXObject(name)) {
        continue;
      }
      PDXObject object = resources.getXObject(name);
      if (object instanceof PDImageXObject image) {
        pictures++;
        dpi = resolution(page, image);
      }
    }
    return new PdfScan(pictures == 1 && !fonts ? dpi : OptionalDouble.empty());
  }

  private static OptionalDouble resolution(PDPage page, PDImageXObject image) {
    double w = page.getCropBox().getWidth() / POINTS;
    double h = page.getCropBox().getHeight() / POINTS;
    double across = image.getWidth() / w;
    double down = image.getHeight() / h;
    boolean fills = Math.abs(across / down - 1) < SET.scanFits();
    double dpi = Math.max(across, down);
    return fills && dpi >= SET.leastScanDpi() && dpi <= SET.mostScanDpi()
        ? OptionalDouble.of(dpi)
        : OptionalDouble.empty();
  }
}
