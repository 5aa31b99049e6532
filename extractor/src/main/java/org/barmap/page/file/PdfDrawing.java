package org.barmap.page.file;

import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.util.List;
import java.util.Optional;
import org.apache.pdfbox.contentstream.operator.MissingOperandException;
import org.apache.pdfbox.contentstream.operator.Operator;
import org.apache.pdfbox.contentstream.operator.OperatorName;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.pdmodel.MissingResourceException;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.graphics.form.PDFormXObject;
import org.apache.pdfbox.pdmodel.graphics.form.PDTransparencyGroup;
import org.apache.pdfbox.pdmodel.graphics.image.PDImage;
import org.apache.pdfbox.rendering.ImageType;
import org.apache.pdfbox.rendering.PDFRenderer;
import org.apache.pdfbox.rendering.PageDrawer;
import org.apache.pdfbox.rendering.PageDrawerParameters;
import org.barmap.page.pixel.PageSettings;

/**
 * Draws the pages of a PDF and keeps account of pictures that could not be drawn: PDFBox leaves
 * them out and only writes so into its log.
 */
final class PdfDrawing extends PDFRenderer {

  private static final PageSettings.Pdf SET = PageSettings.STANDARD.pdf();
  private static final Limits MOST = Limits.STANDARD;

  private int page;
  private double share;
  private Optional<UnreadableException> flaw = Optional.empty();

  PdfDrawing(PDDocument document) {
    super(document);
    setSubsamplingAllowed(true);
  }

  /**
   * Draws page {@code index} (from 0).
   *
   * @throws UnreadableException when much of it is a picture that can't be read
   */
  BufferedImage draw(int index, float dpi) throws IOException, UnreadableException {
    page = index + 1;
    share = 0;
    flaw = Optional.empty();
    BufferedImage drawn = renderImageWithDPI(index, dpi, ImageType.GRAY);
    if (flaw.isPresent() && share >= SET.much()) {
      throw flaw.get();
    }
    return drawn;
  }

  /** Returns what is wrong with the page drawn last: a small picture on it is left out. */
  Optional<UnreadableException> flaw() {
    return flaw;
  }

  @Override
  protected PageDrawer createPageDrawer(PageDrawerParameters parameters) throws IOException {
    return new Drawer(parameters);
  }

  private void leftOut(Exception why, double area) {
    share += area;
    if (flaw.isEmpty()) {
      flaw = Optional.of(described(why));
    }
  }

  private UnreadableException described(Exception why) {
    String where = "a picture on page " + page + " could not be read";
    if (why instanceof UnreadableException known && known.code().equals("too-large")) {
      return new UnreadableException(known.code(), where + ": " + known.getMessage());
    }
    return new UnreadableException(
        "picture-unread",
        where + "; export or scan this page again, as a PDF with JPEG pictures or as PNG.");
  }

  /** Ends the drawing of a page on which more is drawn than a page can hold. */
  static final class EndlessException extends RuntimeException {
    private static final long serialVersionUID = 1L;
  }

  private final class Drawer extends PageDrawer {

    private int level;
    private int drawings;
    private long operators;

    Drawer(PageDrawerParameters parameters) throws IOException {
      super(parameters);
    }

    @Override
    protected void processOperator(Operator operator, List<COSBase> operands) throws IOException {
      if (++operators > MOST.operators()) {
        throw new EndlessException();
      }
      super.processOperator(operator, operands);
    }

    @Override
    public void showForm(PDFormXObject form) throws IOException {
      if (++drawings > MOST.drawings() || ++level > MOST.forms()) {
        throw new EndlessException();
      }
      super.showForm(form);
      level--;
    }

    @Override
    public void showTransparencyGroup(PDTransparencyGroup form) throws IOException {
      if (++drawings > MOST.drawings() || ++level > MOST.forms()) {
        throw new EndlessException();
      }
      super.showTransparencyGroup(form);
      level--;
    }

    @Override
    public void drawImage(PDImage image) throws IOException {
      try {
        PdfPictureCheck.check(image);
        super.drawImage(image);
      } catch (EndlessException e) {
        throw e;
      } catch (UnreadableException | IOException | RuntimeException e) {
        leftOut(e, area());
      }
    }

    /** Returns the share of the page that the unit square covers, which pictures are drawn in. */
    private double area() {
      Rectangle2D unit = new Rectangle2D.Double(0, 0, 1, 1);
      Rectangle2D drawn =
          getGraphicsState()
              .getCurrentTransformationMatrix()
              .createAffineTransform()
              .createTransformedShape(unit)
              .getBounds2D();
      PDRectangle box = getPage().getCropBox();
      Rectangle2D seen =
          drawn.createIntersection(
              new Rectangle2D.Double(
                  box.getLowerLeftX(), box.getLowerLeftY(), box.getWidth(), box.getHeight()));
      return Math.max(0, seen.getWidth())
          * Math.max(0, seen.getHeight())
          / Math.max(1, (double) box.getWidth() * box.getHeight());
    }

    @Override
    protected void operatorException(
        Operator operator, List<COSBase> operands, IOException exception) throws IOException {
      boolean nothingThere =
          exception instanceof MissingOperandException
              || exception instanceof MissingResourceException;
      if (operator.getName().equals(OperatorName.DRAW_OBJECT) && !nothingThere) {
        leftOut(exception, area());
      }
      super.operatorException(operator, operands, exception);
    }
  }
}
