package org.barmap.browser.room;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.barmap.browser.Browser;

/**
 * Pictures of rooms, where they are asked for.
 *
 * @param folder of the pictures, nothing for none
 */
record Shots(Optional<Path> folder) {

  /** Returns those that {@code -Dbarmap.shots=FOLDER} asks for. */
  static Shots asked() {
    return new Shots(Optional.ofNullable(System.getProperty("barmap.shots")).map(Path::of));
  }

  /** Takes a picture of the whole page, as far as it is worth looking at. */
  void take(Browser browser, String room, int width, String theme) throws IOException {
    if (folder.isPresent()) {
      Files.createDirectories(folder.get());
      Files.write(
          folder.get().resolve("%s-%d-%s.png".formatted(room, width, theme)),
          browser.picture(width));
    }
  }
}
