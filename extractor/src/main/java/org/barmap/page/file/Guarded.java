package org.barmap.page.file;

import java.util.Optional;
import org.opencv.core.Mat;

/**
 * A file whose decoder may do what it likes: whatever comes out of it is a picture or the reason
 * why there is none.
 */
public final class Guarded implements Document {

  private static final System.Logger LOG = System.getLogger(Guarded.class.getName());

  private final Document file;

  private Guarded(Document file) {
    this.file = file;
  }

  /** Something that decoders do. */
  @FunctionalInterface
  public interface Step<T> {

    /** Does it. */
    T make() throws UnreadableException;
  }

  /** Opens a file. */
  public static Document open(Step<Document> opening) throws UnreadableException {
    return new Guarded(plainly("the file", opening));
  }

  /**
   * Does something that may need more than there is, or meet a defect of a decoder.
   *
   * @param what "the file", "page 3"
   */
  public static <T> T plainly(String what, Step<T> step) throws UnreadableException {
    try {
      return step.make();
    } catch (StackOverflowError e) {
      throw new UnreadableException(
          "too-deep", what + " is nested too deep to be read; export it again.");
    } catch (OutOfMemoryError e) {
      throw new UnreadableException(
          "too-large", what + " needs more memory than there is; scan or export it at 300 dpi.");
    } catch (RuntimeException | LinkageError e) {
      LOG.log(System.Logger.Level.WARNING, what + " can't be read", e);
      throw new UnreadableException(
          "damaged", what + " is damaged; copy it again, or scan or photograph the page again.");
    }
  }

  @Override
  public int pages() {
    return file.pages();
  }

  @Override
  public Mat page(int index) throws UnreadableException {
    return plainly("page " + (index + 1), () -> file.page(index));
  }

  @Override
  public boolean isPicture() {
    return file.isPicture();
  }

  @Override
  public Optional<UnreadableException> flaw() {
    return file.flaw();
  }

  @Override
  public void close() {
    file.close();
  }
}
