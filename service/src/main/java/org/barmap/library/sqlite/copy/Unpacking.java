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
public record Unpacking(PictureStore pictures) implements Restoring.Check {

  private static final System.Logger LOG = System.getLogger(Unpacking.class.getName());

  @Override
  public void of(Path store, Path books) throws IOException {
    StoreCheck.check(store);
    Set<String> before = Set.copyOf(pictures.sizes().keySet());
    List<String> came = new ArrayList<>();
    boolean all = false;
    try {
      for (Path book : OurFiles.list(books)) {
        for (Path file : OurFiles.list(book)) {
          came.add(OurFiles.name(book) + "/" + OurFiles.name(file));
          pictures.keep(OurFiles.name(book), file);
        }
      }
      all = true;
    } finally {
      if (!all) {
        came.stream().filter(one -> !before.contains(one)).forEach(this::takeOut);
      }
    }
  }

  /** Nothing half is left, as far as the store that failed lets us. */
  private void takeOut(String path) {
    int slash = path.indexOf('/');
    try {
      pictures.remove(path.substring(0, slash), path.substring(slash + 1));
    } catch (IOException e) {
      LOG.log(System.Logger.Level.WARNING, "stays in the store of pictures: {0} ({1})", path, e);
    }
  }
}
