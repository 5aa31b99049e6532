package org.barmap.plan;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaCall;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;

/** Planning sees the map and nothing else of ours, and touches no file, clock or network. */
@AnalyzeClasses(packages = "org.barmap.plan", importOptions = ImportOption.DoNotIncludeTests.class)
class PlanWallTest {

  @ArchTest
  static final ArchRule SEES_THE_MAP_ONLY =
      classes()
          .that()
          .resideInAPackage("org.barmap.plan..")
          .should()
          .onlyDependOnClassesThat()
          .resideInAnyPackage(
              "org.barmap.plan..",
              "org.barmap.map..",
              "java.lang..",
              "java.util..",
              "java.io",
              "java.nio.charset",
              "java.text",
              "java.time..",
              "org.jspecify.annotations",
              "com.fasterxml.jackson.annotation",
              "tools.jackson..");

  @ArchTest
  static final ArchRule READS_NO_FILE =
      noClasses().should().dependOnClassesThat().haveSimpleNameStartingWith("File");

  /** Days that are said are read; which day it is, is always given. */
  @ArchTest
  static final ArchRule READS_NO_CLOCK =
      noClasses()
          .should()
          .callCodeUnitWhere(
              DescribedPredicate.describe(
                  "the time of day is asked for",
                  (JavaCall<?> call) ->
                      call.getName().equals("now")
                          && call.getTargetOwner().getPackageName().startsWith("java.")));

  @ArchTest
  static final ArchRule ONE_WAY =
      slices().matching("org.barmap.(plan..)").should().beFreeOfCycles();

  @ArchTest
  static final ArchRule CHANGES_KNOW_NO_PLAN =
      noClasses()
          .that()
          .resideInAPackage("org.barmap.plan.change")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("org.barmap.plan", "org.barmap.plan.order", "org.barmap.plan.turn");
}
