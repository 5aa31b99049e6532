package org.barmap;

import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import java.io.IOException;
import java.lang.reflect.AnnotatedElement;
import java.lang.reflect.Constructor;
import java.lang.reflect.Executable;
import java.lang.reflect.Field;
import java.lang.reflect.Member;
import java.lang.reflect.Method;
import java.lang.reflect.Modifier;
import java.net.URISyntaxException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.apiguardian.api.API;
import org.barmap.extract.Extractor;
import org.junit.jupiter.api.Test;

/**
 * What others may build on stays. {@code api.txt} is all of it, one line each: what a public
 * package shows. A line that goes, or is another one, breaks those who use the library; a new line
 * is a promise. Either is made by changing the file, so that it is seen in a review. {@code
 * -Dbarmap.api=write} writes it anew.
 */
class PublicApiTest {

  private static final Path LIST =
      Path.of(System.getProperty("barmap.home", ".."))
          .resolve("extractor/src/test/resources/org/barmap/api.txt");

  private static final Pattern OURS = Pattern.compile("org\\.barmap\\.[\\w.$]+");

  private static final Set<String> OF_RECORDS = Set.of("equals", "hashCode", "toString");

  private static List<Class<?>> classes() throws IOException {
    Path root = root();
    try (Stream<Path> files = Files.walk(root.resolve("org/barmap"))) {
      List<Class<?>> classes = new ArrayList<>();
      for (Path file : files.filter(f -> f.toString().endsWith(".class")).sorted().toList()) {
        String name = root.relativize(file).toString().replace('/', '.').replace(".class", "");
        classes.add(Class.forName(name, false, PublicApiTest.class.getClassLoader()));
      }
      return classes;
    } catch (ClassNotFoundException e) {
      throw new IOException(e);
    }
  }

  private static Path root() {
    try {
      return Path.of(Extractor.class.getProtectionDomain().getCodeSource().getLocation().toURI());
    } catch (URISyntaxException e) {
      throw new IllegalStateException(e);
    }
  }

  /** Not asked of the JVM: that finds the package-info of the tests first. */
  private static final JavaClasses PACKAGES =
      new ClassFileImporter(List.of(l -> l.contains("package-info"))).importPath(root());

  private static API.Status status(Class<?> type) {
    return PACKAGES
        .getPackage(type.getPackageName())
        .tryGetAnnotationOfType(API.class)
        .map(API::status)
        .orElseThrow(
            () -> new AssertionError(type.getPackageName() + ": package-info says what it is"));
  }

  private static boolean isShown(Class<?> type) {
    boolean open = Modifier.isPublic(type.getModifiers()) && !type.isAnonymousClass();
    Class<?> around = type.getEnclosingClass();
    return open && !type.isSynthetic() && (around == null || isShown(around));
  }

  private static boolean isShown(Member member, AnnotatedElement said) {
    API own = said.getAnnotation(API.class);
    return Modifier.isPublic(member.getModifiers())
        && !member.isSynthetic()
        && (own == null || own.status() != API.Status.INTERNAL);
  }

  private static String kind(Class<?> type) {
    String kind =
        type.isRecord()
            ? "record"
            : type.isEnum() ? "enum" : type.isInterface() ? "interface" : "class";
    return Modifier.isAbstract(type.getModifiers()) && kind.equals("class")
        ? "abstract class"
        : kind;
  }

  private static String parameters(Executable e) {
    return Arrays.stream(e.getGenericParameterTypes())
        .map(t -> t.getTypeName())
        .collect(Collectors.joining(", ", "(", ")"));
  }

  private static Set<String> lines() throws IOException {
    Set<String> lines = new TreeSet<>();
    for (Class<?> type : classes()) {
      if (status(type) != API.Status.INTERNAL && isShown(type)) {
        String name = type.getName();
        lines.add(name + " " + kind(type));
        for (Constructor<?> c : type.getConstructors()) {
          lines.add(name + " new" + parameters(c));
        }
        for (Method m : type.getDeclaredMethods()) {
          if (isShown(m, m) && !(type.isRecord() && OF_RECORDS.contains(m.getName()))) {
            String how =
                (Modifier.isStatic(m.getModifiers()) ? " static" : "")
                    + (Modifier.isAbstract(m.getModifiers()) ? " abstract" : "");
            lines.add(
                name
                    + how
                    + " "
                    + m.getName()
                    + parameters(m)
                    + " "
                    + m.getGenericReturnType().getTypeName());
          }
        }
        for (Field f : type.getDeclaredFields()) {
          if (isShown(f, f)) {
            lines.add(name + " field " + f.getName() + " " + f.getGenericType().getTypeName());
          }
        }
      }
    }
    return lines;
  }

  @Test
  void whatOthersBuildOnIsAsListed() throws IOException {
    Set<String> now = lines();
    if (System.getProperty("barmap.api", "").equals("write")) {
      Files.writeString(LIST, String.join("\n", now) + "\n");
    }
    List<String> listed = Files.readAllLines(LIST);
    assertThat(now)
        .as("gone or changed: this breaks those who use the library")
        .containsAll(listed);
    assertThat(listed).as("new: list it in api.txt, it is a promise").containsAll(now);
  }

  @Test
  void itShowsNothingOfWhatIsInternal() throws IOException {
    Set<String> open = new TreeSet<>();
    for (Class<?> type : classes()) {
      if (status(type) != API.Status.INTERNAL) {
        open.add(type.getPackageName());
      }
    }
    assertThat(open)
        .containsExactly(
            "org.barmap.extract",
            "org.barmap.extract.engine",
            "org.barmap.map",
            "org.barmap.map.json");
    for (String line : lines()) {
      Matcher used = OURS.matcher(line);
      while (used.find()) {
        String type = used.group();
        assertThat(open).as(line).contains(type.substring(0, type.lastIndexOf('.')));
      }
    }
  }
}
