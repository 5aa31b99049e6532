package org.barmap.library.sqlite.copy;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.barmap.library.keep.BackupWriter;
import org.barmap.library.keep.Closing;
import org.barmap.library.keep.OurFiles;
import org.barmap.library.keep.Restoring;
import org.barmap.library.picture.PictureStore;

/**
 * Looks at a backup that was unpacked and takes its pictures to where pictures are kept, before it
 * may take its place.
 *
 * @param pictures where they are kept
 */
public record Unpacking(PictureStore pictures) implements Restoring.Check {

  private static final System.Logger LOG = System.getLogger(Unpacking.class.getName());

  @Override
  public void of(Path store, Path books) throws IOException {
    StoreCheck.check(store);
    Set<String> before = Set.copyOf(pictures.sizes().keySet());
    Map<Path, String> files = new LinkedHashMap<>();
    List<String> brought = new ArrayList<>();
    for (Path book : OurFiles.list(books)) {
      for (Path file : OurFiles.list(book)) {
        String path = OurFiles.name(book) + "/" + OurFiles.name(file);
        files.put(file, OurFiles.name(book));
        if (!before.contains(path)) {
          brought.add(path);
        }
      }
    }
    if (pictures.isElsewhere()) {
      // before the first one is brought: a kill leaves none that nobody knows of
      write(store.resolveSibling(BROUGHT), brought, books);
    }
    for (Map.Entry<Path, String> file : files.entrySet()) {
      pictures.keep(file.getValue(), file.getKey());
    }
  }

  private static void write(Path list, List<String> files, Path in) throws IOException {
    Files.deleteIfExists(list);
    Files.write(Files.createFile(list, Closing.file(in)), files);
    try (FileChannel channel = FileChannel.open(list, StandardOpenOption.WRITE)) {
      channel.force(true);
    }
  }

  @Override
  public void takeOut(Path unpacked) throws IOException {
    Path list = unpacked.resolve(BROUGHT);
    if (!Files.exists(list)) {
      return;
    }
    for (String path : Files.readAllLines(list)) {
      if (Restoring.isFile(Restoring.BOOKS + "/" + path)) {
        int slash = path.indexOf('/');
        pictures.remove(path.substring(0, slash), path.substring(slash + 1));
      }
    }
  }

  @Override
  public void note(Path aside) throws IOException {
    Path store = aside.resolve("barmap.db");
    if (!pictures.isElsewhere() || !Files.exists(store)) {
      return;
    }
    try {
      List<String> named =
          new StoreFile(store).named().stream().map(BackupWriter.Named::path).toList();
      write(aside.resolve(ELSEWHERE), named, aside);
    } catch (SQLException e) {
      // of an older barmap, or damaged: its pictures stay where they are
      LOG.log(System.Logger.Level.WARNING, "which pictures it names is not known: {0}", e);
    }
  }
}
