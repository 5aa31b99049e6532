package org.barmap.library.keep;

import java.io.IOException;
import java.nio.file.Path;

/** What a backup that is put back has to do with pictures that are kept outside of the folder. */
public interface Outside {

  /** In the folder that is unpacked into: the files that were brought there, one a line. */
  String BROUGHT = "brought";

  /** In a folder that is set aside: the files of its books that are still there, one a line. */
  String ELSEWHERE = "pictures-kept-elsewhere.txt";

  /**
   * Takes out again what was brought there of a backup that comes to nothing; done again after a
   * kill.
   *
   * @param unpacked the folder it was unpacked into
   * @throws IOException when that can't be done now
   */
  void takeOut(Path unpacked) throws IOException;

  /**
   * Notes which pictures of books that are set aside stay there.
   *
   * @param aside the folder with their store
   */
  void note(Path aside) throws IOException;
}
