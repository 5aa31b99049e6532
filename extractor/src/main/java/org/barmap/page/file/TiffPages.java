package org.barmap.page.file;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.awt.image.DataBufferByte;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.Iterator;
import javax.imageio.ImageIO;
import javax.imageio.ImageReadParam;
import javax.imageio.ImageReader;
import javax.imageio.ImageTypeSpecifier;
import javax.imageio.metadata.IIOMetadata;
import javax.imageio.stream.ImageInputStream;
import javax.imageio.stream.MemoryCacheImageInputStream;
import org.jspecify.annotations.Nullable;
import org.opencv.core.Core;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import org.w3c.dom.Element;
import org.w3c.dom.Node;
import org.w3c.dom.NodeList;

/** A TIFF file with any number of pages, read with TwelveMonkeys ImageIO. */
public final class TiffPages implements Document {

  private final ImageReader reader;
  private final ImageInputStream in;
  private final int pages;

  private TiffPages(ImageReader reader, ImageInputStream in, int pages) {
    this.reader = reader;
    this.in = in;
    this.pages = pages;
  }

  /** Opens a TIFF. */
  public static TiffPages open(byte[] bytes) throws UnreadableException {
    ImageInputStream in = new MemoryCacheImageInputStream(new ByteArrayInputStream(bytes));
    Iterator<ImageReader> readers = ImageIO.getImageReadersByFormatName("TIFF");
    if (!readers.hasNext()) {
      throw PictureHeader.damaged();
    }
    ImageReader reader = readers.next();
    try {
      reader.setInput(in);
      int pages = reader.getNumImages(true);
      Document.checkPages(pages);
      return new TiffPages(reader, in, pages);
    } catch (IOException | RuntimeException e) {
      reader.dispose();
      throw PictureHeader.damaged();
    }
  }

  @Override
  public int pages() {
    return pages;
  }

  @Override
  public Mat page(int index) throws UnreadableException {
    try {
      int width = reader.getWidth(index);
      int height = reader.getHeight(index);
      Document.checkPage(width, height);
      int orientation = orientation(reader.getImageMetadata(index));
      int step = Limits.STANDARD.step(width, height, bytesOfPixel(reader.getRawImageType(index)));
      ImageReadParam every = reader.getDefaultReadParam();
      every.setSourceSubsampling(step, step, 0, 0);
      return upright(toGray(reader.read(index, every)), orientation);
    } catch (java.io.EOFException e) {
      throw PictureHeader.broken();
    } catch (IOException | RuntimeException e) {
      throw PictureHeader.damaged();
    }
  }

  private static int bytesOfPixel(@Nullable ImageTypeSpecifier type) {
    if (type == null) {
      return 3; // YCbCr becomes three colours
    }
    int bits = 0;
    for (int band = 0; band < type.getNumBands(); band++) {
      bits += type.getBitsPerBand(band);
    }
    return (bits + Byte.SIZE - 1) / Byte.SIZE;
  }

  /** Returns the value of the orientation tag (TIFF 6.0, tag 274), 1 without one. */
  private static int orientation(IIOMetadata metadata) {
    Node root = metadata.getAsTree(metadata.getNativeMetadataFormatName());
    NodeList fields = ((Element) root).getElementsByTagName("TIFFField");
    for (int i = 0; i < fields.getLength(); i++) {
      Element field = (Element) fields.item(i);
      NodeList values = field.getElementsByTagName("TIFFShort");
      if (field.getAttribute("number").equals("274") && values.getLength() > 0) {
        String value = ((Element) values.item(0)).getAttribute("value");
        return value.matches("[1-8]") ? Integer.parseInt(value) : 1;
      }
    }
    return 1;
  }

  /** Turns and mirrors a picture as its orientation tag says; frees what it replaces. */
  private static Mat upright(Mat stored, int orientation) {
    if (orientation == 1) {
      return stored;
    }
    Mat out = new Mat();
    switch (orientation) {
      case 2 -> Core.flip(stored, out, 1);
      case 3 -> Core.rotate(stored, out, Core.ROTATE_180);
      case 4 -> Core.flip(stored, out, 0);
      case 5 -> Core.transpose(stored, out);
      case 6 -> Core.rotate(stored, out, Core.ROTATE_90_CLOCKWISE);
      case 7 -> {
        Core.transpose(stored, out);
        Core.flip(out, out, -1);
      }
      default -> Core.rotate(stored, out, Core.ROTATE_90_COUNTERCLOCKWISE);
    }
    stored.release();
    return out;
  }

  /** Copies a picture to 8-bit gray on white; the caller frees it. */
  static Mat toGray(BufferedImage image) {
    BufferedImage gray = image;
    if (image.getType() != BufferedImage.TYPE_BYTE_GRAY) {
      gray = new BufferedImage(image.getWidth(), image.getHeight(), BufferedImage.TYPE_BYTE_GRAY);
      Graphics2D g = gray.createGraphics();
      g.drawImage(image, 0, 0, Color.WHITE, null);
      g.dispose();
    }
    Mat mat = new Mat(gray.getHeight(), gray.getWidth(), CvType.CV_8U);
    mat.put(0, 0, ((DataBufferByte) gray.getRaster().getDataBuffer()).getData());
    return mat;
  }

  @Override
  public void close() {
    reader.dispose();
    try {
      in.close();
    } catch (IOException e) {
      // Nothing is lost: the bytes are in memory.
    }
  }
}
