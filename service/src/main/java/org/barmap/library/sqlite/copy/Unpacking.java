package org.barmap.library.sqlite.copy;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.barmap.library.keep.OurFiles;
import org.barmap.library.keep.Restoring;
import org.barmap.library.picture.PictureStore;

/**
 * Looks at a backup that was unpacked and takes its pictures to where pictures are kept, before it
 * may take its place.
 */
public final class Unpacking implements Restoring.Check {

  private static final System.Logger LOG = System.getLogger(Unpacking.class.getName());

  private final PictureStore pictures;

  /** What was not there before, {@code BOOK/FILE}. */
  private final List<String> added = new ArrayList<>();

  /**
   * Makes it for one backup.
   *
   * @param pictures where they are kept
   */
  public Unpacking(PictureStore pictures) {
    this.pictures = pictures;
  }

  @Override
  public void of(Path store, Path books) throws IOException {
    StoreCheck.check(store);
    Set<String> before = Set.copyOf(pictures.sizes().keySet());
    boolean all = false;
    try {
      for (Path book : OurFiles.list(books)) {
        for (Path file : OurFiles.list(book)) {
          String path = OurFiles.name(book) + "/" + OurFiles.name(file);
          if (pictures.isElsewhere() && !before.contains(path)) {
            added.add(path);
          }
          pictures.keep(OurFiles.name(book), file);
        }
      }
      all = true;
    } finally {
      if (!all) {
        takeOut();
      }
    }
  }

  /** Takes its pictures out again, since it does not take its place: nothing half is left. */
  public void takeOut() {
    added.forEach(this::takeOut);
    added.clear();
  }

  /** As far as a store that failed lets us. */
  private void takeOut(String path) {
    int slash = path.indexOf('/');
    try {
      pictures.remove(path.substring(0, slash), path.substring(slash + 1));
    } catch (IOException e) {
      LOG.log(System.Logger.Level.WARNING, "stays in the store of pictures: {0} ({1})", path, e);
    }
  }
}
