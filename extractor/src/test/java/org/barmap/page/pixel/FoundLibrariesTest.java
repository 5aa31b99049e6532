package org.barmap.page.pixel;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.bytedeco.javacpp.Loader;
import org.bytedeco.opencv.opencv_java;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import org.opencv.core.Core;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import org.opencv.core.Scalar;

@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class FoundLibrariesTest {

  @TempDir private Path folder;

  private Map<String, String> loaded = Map.of();

  private FoundLibraries libraries() throws IOException {
    return new FoundLibraries(folder, program());
  }

  private Path program() throws IOException {
    return Files.writeString(folder.resolve("program.jar"), "the classes");
  }

  /** In a process of its own: here a list may have loaded them, of which JavaCPP knows nothing. */
  @BeforeAll
  void asAtTheFirstStart() throws Exception {
    loaded =
        said(First.class)
            .lines()
            .map(line -> line.split("\t", 2))
            .collect(Collectors.toMap(line -> line[0], line -> line[1]));
  }

  /** Says what JavaCPP has loaded, and from where. */
  static final class First {
    private First() {}

    public static void main(String[] args) {
      FoundLibraries.unpack(opencv_java.class);
      Loader.getLoadedLibraries().forEach((name, file) -> System.out.println(name + "\t" + file));
    }
  }

  private static String said(Class<?> program, String... words) throws Exception {
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.addAll(List.of("-XX:TieredStopAtLevel=1", "-cp"));
    command.addAll(List.of(System.getProperty("java.class.path"), program.getName()));
    command.addAll(List.of(words));
    Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
    String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertThat(process.waitFor()).as(said).isZero();
    return said;
  }

  /** Servers have no libraries of a desktop. */
  @Test
  void whatOpensWindowsIsNotLoaded() {
    assertThat(loaded.keySet()).anyMatch(name -> name.startsWith("opencv_java"));
    assertThat(loaded.keySet()).noneMatch(name -> name.contains("highgui"));
  }

  /** In a process of its own, in which nothing is loaded yet. */
  @Test
  void aListIsEnoughForTheNextStart() throws Exception {
    FoundLibraries libraries = libraries();
    libraries.keep(loaded);
    assertThat(libraries.list())
        .as("the order knows every library that JavaCPP loads for OpenCV")
        .exists();
    String said = said(Next.class, folder.toString(), program().toString());
    assertThat(said).isEqualTo("true 12.0 0\n");
  }

  /** Says whether the list was enough, what OpenCV adds up, and how much JavaCPP has loaded. */
  static final class Next {
    private Next() {}

    public static void main(String[] args) throws IOException {
      boolean again = new FoundLibraries(Path.of(args[0]), Path.of(args[1])).again();
      double sum = Core.sumElems(new Mat(3, 4, CvType.CV_8UC1, Scalar.all(1))).val[0];
      System.out.println(again + " " + sum + " " + Loader.getLoadedLibraries().size());
    }
  }

  @Test
  void anUnknownLibraryLeavesNoList() throws IOException {
    Map<String, String> more = new HashMap<>(loaded);
    more.put("opencv_something@.999", loaded.get("opencv_java"));
    FoundLibraries libraries = libraries();
    Files.deleteIfExists(libraries.list());
    libraries.keep(more);
    assertThat(libraries.list()).doesNotExist();
  }

  @Test
  void aListThatDoesNotFitIsNotUsed() throws IOException {
    FoundLibraries libraries = libraries();
    libraries.keep(loaded);
    assertThat(libraries.again()).isTrue();
    List<String> lines = Files.readAllLines(libraries.list());
    for (String wrong :
        List.of("", "nothing", "1 " + folder.resolve("gone"), lines.get(0).replace(' ', '0'))) {
      List<String> other = new ArrayList<>(lines);
      other.set(0, wrong);
      Files.write(libraries.list(), other);
      assertThat(libraries.again()).as(wrong).isFalse();
    }
    Files.write(libraries.list(), List.of());
    assertThat(libraries.again()).isFalse();
    Files.delete(libraries.list());
    assertThat(libraries.again()).isFalse();
    Files.writeString(folder.resolve("program.jar"), "other classes");
    assertThat(new FoundLibraries(folder, folder.resolve("program.jar")).list())
        .isNotEqualTo(libraries.list());
  }
}
