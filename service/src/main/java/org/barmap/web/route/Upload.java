package org.barmap.web.route;

import io.javalin.http.UploadedFile;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.function.Supplier;
import org.barmap.page.file.FileKind;
import org.barmap.web.api.ApiError;
import org.barmap.web.api.ApiException;
import org.barmap.web.api.Problems;

/** Looks at uploaded files before they are kept. */
final class Upload {

  private static final Set<String> ENDINGS =
      Set.of(".png", ".jpg", ".jpeg", ".tif", ".tiff", ".pdf");

  private Upload() {}

  /**
   * Returns the files of a multipart body.
   *
   * @param parsed asks the request for them
   * @throws ApiException when the body is none, or not whole
   */
  static List<UploadedFile> files(Supplier<List<UploadedFile>> parsed) {
    try {
      return parsed.get();
    } catch (RuntimeException e) {
      if (Problems.isTooLarge(e) || Problems.isOfTheDisk(e)) {
        throw e;
      }
      throw new ApiException(
          ApiError.BAD_REQUEST, "The upload is no multipart body, or breaks off; send it again");
    }
  }

  /** Returns a name for a new file that nobody can guess or choose. */
  static String id() {
    return "u" + UUID.randomUUID().toString().replace("-", "");
  }

  /** Returns the plain name of a file, without folders, cut to a length people can read. */
  static String name(String given) {
    String plain = given == null ? "" : given.substring(lastSeparator(given) + 1);
    String clean = plain.replaceAll("\\p{Cntrl}", "").strip();
    String name = clean.isEmpty() ? "page" : clean;
    return name.length() > 120 ? name.substring(name.length() - 120) : name;
  }

  private static int lastSeparator(String name) {
    return Math.max(name.lastIndexOf('/'), name.lastIndexOf('\\'));
  }

  /** Returns the ending the file is kept under; a word of ours, never the player's. */
  static String ending(String name) {
    int dot = name.lastIndexOf('.');
    String ending = dot < 0 ? "" : name.substring(dot).toLowerCase(Locale.ROOT);
    return ENDINGS.contains(ending) ? ending : ".page";
  }

  /** Returns what is wrong with a file, as far as its first bytes tell. */
  static Optional<String> wrong(UploadedFile file) throws IOException {
    if (file.size() == 0) {
      return Optional.of("the file is empty; copy it again");
    }
    byte[] head;
    try (InputStream in = file.content()) {
      head = in.readNBytes(FileKind.HEAD);
    }
    return FileKind.of(head).isPresent()
        ? Optional.empty()
        : Optional.of("this is no PNG, JPEG, TIFF or PDF, whatever its name says; convert it");
  }

  /** Returns the media type of a kept picture, from its first bytes. */
  static String type(Path picture) throws IOException {
    try (InputStream in = java.nio.file.Files.newInputStream(picture)) {
      Optional<FileKind> kind = FileKind.of(in.readNBytes(FileKind.HEAD));
      return kind.equals(Optional.of(FileKind.PNG)) ? "image/png" : "image/jpeg";
    }
  }
}
