package org.barmap;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;

/** The walls between the rooms of the service. */
@AnalyzeClasses(
    packages = "org.barmap",
    importOptions = {ImportOption.DoNotIncludeTests.class})
class ServiceArchitectureTest {

  @ArchTest
  static final ArchRule planSeesTheMapOnly =
      noClasses()
          .that()
          .resideInAPackage("org.barmap.plan..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage(
              "org.barmap.edit..",
              "org.barmap.exchange..",
              "org.barmap.library..",
              "org.barmap.work..",
              "org.barmap.web..",
              "org.barmap.cli..",
              "org.barmap.page..",
              "org.barmap.staff..",
              "org.barmap.sign..",
              "org.barmap.reckon..",
              "org.barmap.extract..");

  @ArchTest
  static final ArchRule correctionsArePure =
      noClasses()
          .that()
          .resideInAPackage("org.barmap.edit..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage(
              "org.barmap.library..",
              "org.barmap.work..",
              "org.barmap.web..",
              "org.barmap.cli..",
              "org.barmap.plan..",
              "java.sql..",
              "io.javalin..",
              "org.jdbi..");

  @ArchTest
  static final ArchRule theLibraryKnowsNothingOfReadingAndHttp =
      noClasses()
          .that()
          .resideInAPackage("org.barmap.library..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage(
              "org.barmap.work..", "org.barmap.web..", "org.barmap.cli..", "io.javalin..");

  @ArchTest
  static final ArchRule nothingCallsTheOutside =
      noClasses()
          .that()
          .resideOutsideOfPackages("org.barmap.web..", "org.barmap.cli..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("org.barmap.web..", "org.barmap.cli..");

  @ArchTest
  static final ArchRule theWebDoesNotCallTheCommandLine =
      noClasses()
          .that()
          .resideInAPackage("org.barmap.web..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("org.barmap.cli..", "org.barmap.extract..", "org.barmap.reckon..");

  @ArchTest
  static final ArchRule onlyTheCommandLinePrints =
      noClasses()
          .that()
          .resideOutsideOfPackage("org.barmap.cli..")
          .should()
          .accessField(System.class, "out")
          .orShould()
          .accessField(System.class, "err");

  /** One way to write into the log: {@code System.Logger}; one class says where it goes. */
  @ArchTest
  static final ArchRule onlyOneClassKnowsHowTheLogIsKept =
      noClasses()
          .that()
          .doNotHaveFullyQualifiedName("org.barmap.cli.Logs")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("java.util.logging..", "org.slf4j..");

  @ArchTest
  static final ArchRule aDraftKnowsNoKindOfCorrection =
      noClasses()
          .that()
          .resideInAPackage("org.barmap.edit.draft..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage(
              "org.barmap.edit", "org.barmap.edit.kind..", "org.barmap.edit.merge..");

  @ArchTest
  static final ArchRule kindsOfCorrectionKnowNoReading =
      noClasses()
          .that()
          .resideInAPackage("org.barmap.edit.kind..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("org.barmap.edit", "org.barmap.edit.merge..");

  @ArchTest
  static final ArchRule whatRoutesShareKnowsNoRoute =
      noClasses()
          .that()
          .resideInAPackage("org.barmap.web.api..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("org.barmap.web", "org.barmap.web.route..");

  @ArchTest
  static final ArchRule theStoreIsOpenedOnlyByWhoStartsTheService =
      noClasses()
          .that()
          .resideOutsideOfPackages("org.barmap.library.sqlite..", "org.barmap.cli..")
          .and()
          .haveSimpleNameNotEndingWith("Test")
          .should()
          .dependOnClassesThat()
          .resideInAPackage("org.barmap.library.sqlite..");

  @ArchTest
  static final ArchRule noRoomNeedsOneThatNeedsIt =
      slices().matching("org.barmap.(**)").should().beFreeOfCycles().allowEmptyShould(true);

  @ArchTest
  static final ArchRule noCycles = slices().matching("org.barmap.(*)..").should().beFreeOfCycles();
}
