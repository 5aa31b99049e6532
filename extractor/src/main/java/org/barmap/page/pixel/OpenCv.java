package org.barmap.page.pixel;

import org.bytedeco.opencv.opencv_java;
import org.opencv.core.Core;

/** Loads the native image library, once. */
public final class OpenCv {

  static {
    LibraryFolder.choose();
    FoundLibraries.load(opencv_java.class);
    Core.setErrorVerbosity(false);
    // The service runs several pages at a time; one page takes one core.
    Core.setNumThreads(1);
  }

  private OpenCv() {}

  /** Makes sure the native library is loaded; cheap after the first call. */
  public static void load() {
    // Loading happens when the class is initialised.
  }
}
