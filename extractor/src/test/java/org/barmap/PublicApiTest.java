package org.barmap;

import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.domain.JavaCodeUnit;
import com.tngtech.archunit.core.domain.JavaField;
import com.tngtech.archunit.core.domain.JavaMember;
import com.tngtech.archunit.core.domain.JavaModifier;
import com.tngtech.archunit.core.domain.JavaType;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import java.net.URISyntaxException;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.apiguardian.api.API;
import org.barmap.extract.Extractor;
import org.junit.jupiter.api.Test;

/**
 * What is shown to others names nothing that is not for them. That it stays as it was at the last
 * release is compared by japicmp, see the pom.
 */
class PublicApiTest {

  private static final Path CLASSES = root();

  /** Not asked of the JVM: that finds the package-info of the tests first. */
  private static final JavaClasses ALL =
      new ClassFileImporter(List.of(l -> l.contains("/org/barmap/"))).importPath(CLASSES);

  private static Path root() {
    try {
      return Path.of(Extractor.class.getProtectionDomain().getCodeSource().getLocation().toURI());
    } catch (URISyntaxException e) {
      throw new IllegalStateException(e);
    }
  }

  private static API.Status status(JavaClass type) {
    return type.getPackage()
        .tryGetAnnotationOfType(API.class)
        .map(API::status)
        .orElseThrow(
            () -> new AssertionError(type.getPackageName() + ": package-info says what it is"));
  }

  private static List<JavaClass> open() {
    return ALL.stream().filter(c -> status(c) != API.Status.INTERNAL).toList();
  }

  private static Set<String> packages() {
    return open().stream()
        .map(JavaClass::getPackageName)
        .collect(Collectors.toCollection(TreeSet::new));
  }

  @Test
  void itShowsNothingOfWhatIsInternal() {
    assertThat(packages())
        .containsExactly(
            "org.barmap.extract",
            "org.barmap.extract.engine",
            "org.barmap.map",
            "org.barmap.map.json");
    for (JavaClass type : open()) {
      if (isShown(type)) {
        for (JavaMember member : type.getMembers()) {
          if (isShown(member)) {
            shown(member)
                .forEach(used -> assertThat(used).as(member.getFullName()).isIn(packages()));
          }
        }
      }
    }
  }

  private static boolean isShown(JavaClass type) {
    return type.getModifiers().contains(JavaModifier.PUBLIC)
        && type.getEnclosingClass().map(PublicApiTest::isShown).orElse(true);
  }

  private static boolean isShown(JavaMember member) {
    return member.getModifiers().contains(JavaModifier.PUBLIC)
        && !member.getModifiers().contains(JavaModifier.SYNTHETIC)
        && !member.isAnnotatedWith(API.class);
  }

  /** Returns our packages that a member names. */
  private static Stream<String> shown(JavaMember member) {
    Stream<JavaType> types =
        member instanceof JavaField field
            ? Stream.of(field.getType())
            : Stream.concat(
                Stream.of(((JavaCodeUnit) member).getReturnType()),
                ((JavaCodeUnit) member).getParameterTypes().stream());
    return types
        .flatMap(t -> t.getAllInvolvedRawTypes().stream())
        .map(JavaClass::getPackageName)
        .filter(p -> p.startsWith("org.barmap"));
  }
}
