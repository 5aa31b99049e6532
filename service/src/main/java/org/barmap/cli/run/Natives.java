package org.barmap.cli.run;

import java.io.IOException;
import java.io.InputStream;
import java.net.URL;
import java.net.URLConnection;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.barmap.library.keep.Closing;
import org.barmap.library.keep.OurFiles;
import org.barmap.page.pixel.LibraryFolder;

/**
 * Puts the libraries in machine code into a folder of ours, once. By themselves SQLite and ONNX
 * Runtime write them into the temporary folder at every start: a kill leaves them there, and a
 * folder from which nothing may be run is no place for them.
 */
public final class Natives {

  private static final System.Logger LOG = System.getLogger(Natives.class.getName());

  /** Names another folder for them. */
  private static final String FOLDER = "barmap.natives";

  private static final Pattern HALF = Pattern.compile("lib\\w+\\.\\w+\\.(\\d{1,18})\\.part");

  private static final String SQLITE = "org.sqlite.lib.path";
  private static final String ONNX = "onnxruntime.native.path";

  private Natives() {}

  /**
   * A library in the program.
   *
   * @param resource where it is in the class path
   * @param property tells the program's own library in which folder it is
   */
  private record Library(String resource, String property) {
    String name() {
      return resource.substring(resource.lastIndexOf('/') + 1);
    }
  }

  /** Puts them in place; what can't be put is left to the libraries themselves. */
  public static void prepare() {
    List<Library> libraries = libraries();
    for (Path folder : folders()) {
      if (!libraries.isEmpty() && put(libraries, folder)) {
        libraries.forEach(library -> say(library.property, folder.toString()));
        say("org.sqlite.lib.name", libraries.get(0).name());
        return;
      }
    }
  }

  private static void say(String property, String value) {
    if (System.getProperty(property) == null) {
      System.setProperty(property, value);
    }
  }

  /** Those of this machine; none where the folder is left to the libraries. */
  private static List<Library> libraries() {
    String os = System.getProperty("os.name", "").toLowerCase(Locale.ROOT);
    String machine = System.getProperty("os.arch", "").toLowerCase(Locale.ROOT);
    boolean arm = machine.equals("aarch64");
    boolean known = arm || machine.equals("amd64") || machine.equals("x86_64");
    if (!known || Files.exists(Path.of("/etc/alpine-release"))) {
      return List.of();
    }
    if (os.contains("linux")) {
      return libraries(
          "Linux/" + (arm ? "aarch64" : "x86_64"), arm ? "linux-aarch64" : "linux-x64", "so");
    }
    return os.contains("mac") && arm ? libraries("Mac/aarch64", "osx-aarch64", "dylib") : List.of();
  }

  private static List<Library> libraries(String sqlite, String onnx, String ending) {
    return List.of(
        new Library("/org/sqlite/native/" + sqlite + "/libsqlitejdbc." + ending, SQLITE),
        new Library("/ai/onnxruntime/native/" + onnx + "/libonnxruntime." + ending, ONNX),
        new Library("/ai/onnxruntime/native/" + onnx + "/libonnxruntime4j_jni." + ending, ONNX));
  }

  /**
   * Beside the program where it was built, else where the account keeps what can be made again,
   * else in a folder of its own in the temporary one.
   */
  private static List<Path> folders() {
    Optional<Path> named = Optional.ofNullable(System.getProperty(FOLDER)).map(Path::of);
    if (named.isPresent()) {
      return List.of(named.get());
    }
    Path cache = Path.of(System.getProperty("user.home", "."), ".cache", "barmap", "natives");
    Path run = Home.folder().resolve("service").resolve("target").resolve("run");
    Stream<Path> homes =
        Files.isDirectory(run) ? Stream.of(run.resolve("natives"), cache) : Stream.of(cache);
    List<Path> ours = homes.filter(Path::isAbsolute).filter(Natives::isOurs).toList();
    return ours.isEmpty() ? LibraryFolder.passing().stream().toList() : ours;
  }

  /** Tells whether what is in a folder, made where it isn't there, is from us only. */
  private static boolean isOurs(Path folder) {
    try {
      Files.createDirectories(folder, Closing.folder(folder));
      return LibraryFolder.isSafe(folder);
    } catch (IOException e) {
      LOG.log(System.Logger.Level.DEBUG, "takes no libraries: {0} ({1})", folder, e);
      return false;
    }
  }

  private static boolean put(List<Library> libraries, Path folder) {
    try {
      Files.createDirectories(folder, Closing.folder(folder));
      dropHalves(folder);
      for (Library library : libraries) {
        put(library, folder);
      }
      return true;
    } catch (IOException | UnsatisfiedLinkError e) {
      LOG.log(System.Logger.Level.DEBUG, "takes no libraries: {0} ({1})", folder, e);
      return false;
    }
  }

  /** Deletes what processes left that were killed while they wrote. */
  private static void dropHalves(Path folder) throws IOException {
    for (Path file : OurFiles.list(folder)) {
      Matcher half = HALF.matcher(OurFiles.name(file));
      if (half.matches()
          && ProcessHandle.of(Long.parseLong(half.group(1)))
              .filter(ProcessHandle::isAlive)
              .isEmpty()) {
        Files.deleteIfExists(file);
      }
    }
  }

  private static void put(Library library, Path folder) throws IOException {
    URL resource = Natives.class.getResource(library.resource);
    if (resource == null) {
      throw new IOException(library.resource + " is not in the program");
    }
    URLConnection connection = resource.openConnection();
    Path file = folder.resolve(library.name());
    boolean there =
        Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS)
            && Files.size(file) == connection.getContentLengthLong();
    if (there) {
      return;
    }
    Path part = folder.resolve(library.name() + "." + ProcessHandle.current().pid() + ".part");
    try {
      try (InputStream in = connection.getInputStream()) {
        Files.copy(in, part, StandardCopyOption.REPLACE_EXISTING);
      }
      if (library.property.equals(SQLITE)) {
        // tells whether the folder runs anything at all
        System.load(part.toAbsolutePath().toString());
      }
      Files.move(part, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
    } finally {
      Files.deleteIfExists(part);
    }
  }
}
