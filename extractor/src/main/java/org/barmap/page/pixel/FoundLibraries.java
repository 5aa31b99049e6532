package org.barmap.page.pixel;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.security.CodeSource;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.bytedeco.javacpp.ClassProperties;
import org.bytedeco.javacpp.Loader;
import org.bytedeco.opencv.global.opencv_core;

/**
 * What was found when OpenCV was loaded by JavaCPP, kept in a list beside the files it unpacked. At
 * every start it looks through the classes and files of all that OpenCV may be built with, which
 * takes 1.2 s of processor time; loading the files takes 0.06. A list that doesn't fit any more is
 * not used, and is written anew.
 */
final class FoundLibraries {

  private static final System.Logger LOG = System.getLogger(FoundLibraries.class.getName());

  /** Each comes behind what it needs, so that none is taken from elsewhere on the machine. */
  private static final List<String> ORDER =
      List.of(
          ("gcc_s quadmath gfortran openblas_nolapack openblas opencv_core opencv_imgproc"
                  + " opencv_imgcodecs opencv_videoio opencv_flann"
                  + " opencv_features2d opencv_calib3d opencv_dnn opencv_objdetect opencv_aruco"
                  + " opencv_video opencv_bgsegm opencv_bioinspired opencv_photo opencv_face"
                  + " opencv_plot opencv_img_hash opencv_phase_unwrapping"
                  + " opencv_structured_light opencv_ml opencv_text opencv_tracking opencv_shape"
                  + " opencv_xfeatures2d opencv_ximgproc opencv_xphoto opencv_saliency"
                  + " opencv_wechat_qrcode opencv_quality opencv_dnn_superres opencv_java")
              .split(" "));

  /** What only JavaCPP's own classes call; ours call OpenCV's. */
  private static final String OTHERS = "jni";

  private final Path list;

  /**
   * Sets where the list is.
   *
   * @param folder where JavaCPP unpacks
   * @param program the jar of the classes that call the libraries
   */
  FoundLibraries(Path folder, Path program) throws IOException {
    this.list = folder.resolve(program.getFileName() + "-" + Files.size(program) + ".loaded");
  }

  /** Loads the libraries of a preset as they were loaded before, or as JavaCPP does. */
  static void load(Class<?> preset) {
    Optional<FoundLibraries> found = of(preset);
    if (found.filter(FoundLibraries::again).isEmpty()) {
      unpack(preset);
      found.ifPresent(libraries -> libraries.keep(Loader.getLoadedLibraries()));
    }
  }

  /**
   * Unpacks and loads what JavaCPP would, but for OpenCV's windows: they need a desktop's own
   * libraries (GTK 2), which servers don't have, nor most laptops any more, and nothing else needs
   * them.
   */
  static void unpack(Class<?> preset) {
    try {
      Loader.load(opencv_core.class);
      ClassProperties names = Loader.loadProperties(preset, Loader.loadProperties(), true);
      List<String> all = new ArrayList<>(names.get("platform.preload"));
      all.addAll(names.get("platform.link"));
      for (String library : ORDER) {
        for (String one : all) {
          if (library.startsWith("opencv") && place(one) == ORDER.indexOf(library)) {
            Loader.loadLibrary(preset, Loader.findLibrary(preset, names, one), one);
          }
        }
      }
    } catch (UnsatisfiedLinkError e) {
      LOG.log(System.Logger.Level.DEBUG, "JavaCPP loads all of it: {0}", e);
      Loader.load(preset);
    }
  }

  private static Optional<FoundLibraries> of(Class<?> preset) {
    CodeSource source = preset.getProtectionDomain().getCodeSource();
    try {
      return source == null
          ? Optional.empty()
          : Optional.of(
              new FoundLibraries(
                  Loader.getCacheDir().toPath(), Path.of(source.getLocation().toURI())));
    } catch (Exception e) { // whatever it is, JavaCPP will say so better
      LOG.log(System.Logger.Level.DEBUG, "no list of libraries: {0}", e);
      return Optional.empty();
    }
  }

  /** Returns where the list is. */
  Path list() {
    return list;
  }

  /** Loads what the list names; tells whether all of it is loaded. */
  boolean again() {
    try {
      List<Path> files = new ArrayList<>();
      for (String line : Files.readAllLines(list)) {
        Path file = Path.of(line.substring(line.indexOf(' ') + 1));
        if (!line.equals(line(file))) {
          return false;
        }
        files.add(file);
      }
      files.forEach(file -> System.load(file.toString()));
      return !files.isEmpty();
    } catch (IOException | IllegalArgumentException | UnsatisfiedLinkError e) {
      LOG.log(System.Logger.Level.DEBUG, "the list of libraries is of no use: {0}", e);
      return false;
    }
  }

  /**
   * Writes the list, unless there is a library whose place is not known.
   *
   * @param loaded where each library was found, by its name and version, "opencv_core@.413"
   */
  void keep(Map<String, String> loaded) {
    List<Map.Entry<String, String>> needed =
        loaded.entrySet().stream()
            .filter(e -> !e.getKey().startsWith(OTHERS))
            .sorted(Comparator.comparingInt(e -> place(e.getKey())))
            .toList();
    try {
      if (needed.isEmpty() || place(needed.get(0).getKey()) < 0) {
        return;
      }
      List<String> lines = new ArrayList<>();
      for (Map.Entry<String, String> library : needed) {
        lines.add(line(Path.of(library.getValue())));
      }
      Path part = Files.createTempFile(list.getParent(), "barmap", ".part");
      try {
        Files.write(part, lines);
        Files.move(part, list, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
      } finally {
        Files.deleteIfExists(part);
      }
    } catch (IOException e) {
      LOG.log(System.Logger.Level.DEBUG, "the list of libraries is not kept: {0}", e);
    }
  }

  private static int place(String library) {
    return ORDER.indexOf(Stream.of(library.split("@")).findFirst().orElse(library));
  }

  /**
   * The size tells a file that was not unpacked to its end; the folder's name has the version. Its
   * time says nothing: the same libraries packed anew elsewhere have another one.
   */
  private static String line(Path file) throws IOException {
    return Files.size(file) + " " + file;
  }
}
