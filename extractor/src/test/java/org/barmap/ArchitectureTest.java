package org.barmap;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;

/** The walls between the rooms of the extractor. */
@AnalyzeClasses(packages = "org.barmap", importOptions = ImportOption.DoNotIncludeTests.class)
class ArchitectureTest {

  @ArchTest
  static final ArchRule mapImportsNoneOfOurs =
      noClasses()
          .that()
          .resideInAPackage("org.barmap.map..")
          .should()
          .dependOnClassesThat(
              com.tngtech.archunit.base.DescribedPredicate.describe(
                  "are ours outside map",
                  c ->
                      c.getPackageName().startsWith("org.barmap")
                          && !c.getPackageName().startsWith("org.barmap.map")));

  @ArchTest static final ArchRule pageSeesNoLaterStage = sees("page", "map");

  @ArchTest static final ArchRule staffSeesPage = sees("staff", "page", "map");

  @ArchTest static final ArchRule signSeesStaffAndPage = sees("sign", "staff", "page", "map");

  @ArchTest static final ArchRule reckonSeesSignsOnly = sees("reckon", "sign", "map");

  @ArchTest
  static final ArchRule extractCallsTheStages =
      sees("extract", "reckon", "sign", "staff", "page", "map");

  @ArchTest
  static final ArchRule nothingImportsTheService =
      noClasses()
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage(
              "org.barmap.edit..",
              "org.barmap.plan..",
              "org.barmap.exchange..",
              "org.barmap.sheet..",
              "org.barmap.library..",
              "org.barmap.work..",
              "org.barmap.web..",
              "org.barmap.cli..");

  @ArchTest
  static final ArchRule noCycles = slices().matching("org.barmap.(*)..").should().beFreeOfCycles();

  @ArchTest
  static final ArchRule onlyJackson3 =
      noClasses()
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("com.fasterxml.jackson.core..", "com.fasterxml.jackson.databind..");

  @ArchTest
  static final ArchRule nobodyPrints =
      noClasses()
          .should()
          .accessField(System.class, "out")
          .orShould()
          .accessField(System.class, "err");

  private static ArchRule sees(String room, String... allowed) {
    return classes()
        .that()
        .resideInAPackage("org.barmap." + room + "..")
        .should()
        .onlyDependOnClassesThat(
            com.tngtech.archunit.base.DescribedPredicate.describe(
                "are its own, of " + String.join(", ", allowed) + ", or not ours",
                c ->
                    !c.getPackageName().startsWith("org.barmap")
                        || c.getPackageName().startsWith("org.barmap." + room)
                        || java.util.Arrays.stream(allowed)
                            .anyMatch(a -> c.getPackageName().startsWith("org.barmap." + a))))
        .allowEmptyShould(true);
  }
}
