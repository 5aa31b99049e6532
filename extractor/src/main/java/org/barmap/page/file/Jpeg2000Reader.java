package org.barmap.page.file;

import java.awt.Rectangle;
import java.awt.color.ColorSpace;
import java.awt.image.BufferedImage;
import java.awt.image.ComponentColorModel;
import java.awt.image.DataBuffer;
import java.awt.image.DataBufferByte;
import java.awt.image.Raster;
import java.awt.image.WritableRaster;
import java.io.IOException;
import java.nio.ByteOrder;
import java.nio.IntBuffer;
import java.util.Collections;
import java.util.Iterator;
import java.util.Locale;
import java.util.Optional;
import javax.imageio.ImageReadParam;
import javax.imageio.ImageReader;
import javax.imageio.ImageTypeSpecifier;
import javax.imageio.metadata.IIOMetadata;
import javax.imageio.spi.IIORegistry;
import javax.imageio.spi.ImageReaderSpi;
import javax.imageio.stream.ImageInputStream;
import org.barmap.page.pixel.LibraryFolder;
import org.bytedeco.javacpp.BytePointer;
import org.bytedeco.javacpp.Loader;
import org.bytedeco.leptonica.PIX;
import org.bytedeco.leptonica.global.leptonica;
import org.jspecify.annotations.Nullable;

/**
 * JPEG 2000 for PDFBox, which asks ImageIO for a reader of that name: decoded by OpenJPEG, through
 * Leptonica, to 8 bits of gray or of red, green and blue.
 *
 * <p>What a picture claims is looked at before memory is asked for.
 */
final class Jpeg2000Reader extends ImageReader {

  /** The longest picture, bytes: as much as the largest one takes without compression. */
  private static final long MAX_BYTES = 3 * Document.MAX_PIXELS;

  private static final int COLOURS = 3;
  private static final int GRAY_DEPTH = 8;
  private static final int COLOUR_DEPTH = 32;
  private static final int GRAYS_OF_WORD = COLOUR_DEPTH / GRAY_DEPTH;
  private static final int HIGHEST_BYTE = COLOUR_DEPTH - GRAY_DEPTH;

  private Optional<byte[]> bytes = Optional.empty();

  private Jpeg2000Reader(ImageReaderSpi provider) {
    super(provider);
  }

  /** Makes the reader known to ImageIO; more than once does no harm. */
  static void register() {
    IIORegistry.getDefaultInstance().registerServiceProvider(new Provider());
  }

  private byte[] bytes() throws IOException {
    if (bytes.isPresent()) {
      return bytes.get();
    }
    if (!(getInput() instanceof ImageInputStream in)) {
      throw new IllegalStateException("no input");
    }
    var out = new java.io.ByteArrayOutputStream();
    byte[] part = new byte[1 << 16];
    for (int n = in.read(part); n >= 0; n = in.read(part)) {
      out.write(part, 0, n);
      if (out.size() > MAX_BYTES) {
        throw new IOException("a JPEG 2000 picture of too many bytes");
      }
    }
    bytes = Optional.of(out.toByteArray());
    return bytes.get();
  }

  private Jpeg2000Header header() throws IOException {
    try {
      return Jpeg2000Header.of(bytes());
    } catch (UnreadableException e) {
      throw new IOException(e.getMessage(), e);
    }
  }

  @Override
  public void setInput(@Nullable Object input, boolean forwardOnly, boolean ignoreMetadata) {
    super.setInput(input, forwardOnly, ignoreMetadata);
    bytes = Optional.empty();
  }

  @Override
  public int getNumImages(boolean allowSearch) {
    return 1;
  }

  @Override
  public int getWidth(int index) throws IOException {
    return header().width();
  }

  @Override
  public int getHeight(int index) throws IOException {
    return header().height();
  }

  @Override
  public Iterator<ImageTypeSpecifier> getImageTypes(int index) throws IOException {
    BufferedImage one = image(1, 1, header().components() < COLOURS ? 1 : COLOURS);
    return Collections.singleton(new ImageTypeSpecifier(one)).iterator();
  }

  @Override
  public @Nullable IIOMetadata getStreamMetadata() {
    return null;
  }

  @Override
  public @Nullable IIOMetadata getImageMetadata(int index) {
    return null;
  }

  @Override
  public BufferedImage read(int index, @Nullable ImageReadParam param) throws IOException {
    Jpeg2000Header header = header();
    byte[] data = bytes();
    PIX pix = leptonica.pixReadMemJp2k(data, data.length, 1, null, 0, 0);
    if (pix == null) {
      throw new IOException("the JPEG 2000 picture is damaged");
    }
    try {
      int width = leptonica.pixGetWidth(pix);
      int height = leptonica.pixGetHeight(pix);
      int depth = leptonica.pixGetDepth(pix);
      if (width != header.width()
          || height != header.height()
          || depth != GRAY_DEPTH && depth != COLOUR_DEPTH) {
        throw new IOException("the JPEG 2000 picture is another one than its header says");
      }
      int perRow = leptonica.pixGetWpl(pix);
      IntBuffer words =
          new BytePointer(leptonica.pixGetData(pix))
              .capacity((long) Integer.BYTES * perRow * height)
              .asByteBuffer()
              .order(ByteOrder.nativeOrder())
              .asIntBuffer();
      Rectangle region = getSourceRegion(param, width, height);
      int stepX = param == null ? 1 : param.getSourceXSubsampling();
      int stepY = param == null ? 1 : param.getSourceYSubsampling();
      int bands = header.components() < COLOURS ? 1 : COLOURS;
      BufferedImage out =
          image((region.width + stepX - 1) / stepX, (region.height + stepY - 1) / stepY, bands);
      Pixels pixels = new Pixels(words, perRow, depth == GRAY_DEPTH ? GRAYS_OF_WORD : 1, bands);
      byte[] to = ((DataBufferByte) out.getRaster().getDataBuffer()).getData();
      int at = 0;
      for (int y = region.y; y < region.y + region.height; y += stepY) {
        for (int x = region.x; x < region.x + region.width; x += stepX, at += bands) {
          pixels.copy(x, y, to, at);
        }
      }
      return out;
    } finally {
      leptonica.pixDestroy(pix);
    }
  }

  /**
   * What Leptonica holds: the bytes of a row from the highest of each word on, gray by gray, or
   * red, green, blue and the cover of a pixel.
   */
  private record Pixels(IntBuffer words, int perRow, int ofWord, int bands) {

    void copy(int x, int y, byte[] to, int at) {
      int word = words.get(y * perRow + x / ofWord);
      for (int band = 0; band < bands; band++) {
        int place = ofWord > 1 ? x % ofWord : band;
        to[at + band] = (byte) (word >>> HIGHEST_BYTE - GRAY_DEPTH * place);
      }
    }
  }

  /** Returns an image whose bytes are the bands of pixel after pixel, as PDFBox takes them. */
  private static BufferedImage image(int width, int height, int bands) {
    WritableRaster raster =
        Raster.createInterleavedRaster(DataBuffer.TYPE_BYTE, width, height, bands, null);
    ColorSpace space = ColorSpace.getInstance(bands == 1 ? ColorSpace.CS_GRAY : ColorSpace.CS_sRGB);
    var colours =
        new ComponentColorModel(
            space, false, false, java.awt.Transparency.OPAQUE, DataBuffer.TYPE_BYTE);
    return new BufferedImage(colours, raster, false, null);
  }

  /** What ImageIO knows of the reader; it is only asked for by name. */
  static final class Provider extends ImageReaderSpi {

    static {
      LibraryFolder.choose();
      Loader.load(leptonica.class);
      leptonica.setMsgSeverity(leptonica.L_SEVERITY_NONE);
    }

    Provider() {
      super(
          "barmap",
          "1",
          new String[] {"JPEG2000"},
          null,
          new String[] {"image/jp2"},
          Jpeg2000Reader.class.getName(),
          new Class<?>[] {ImageInputStream.class},
          null,
          false,
          null,
          null,
          null,
          null,
          false,
          null,
          null,
          null,
          null);
    }

    @Override
    public boolean canDecodeInput(Object source) {
      return false;
    }

    @Override
    public ImageReader createReaderInstance(@Nullable Object extension) {
      return new Jpeg2000Reader(this);
    }

    @Override
    public String getDescription(Locale locale) {
      return "JPEG 2000 by OpenJPEG";
    }
  }
}
