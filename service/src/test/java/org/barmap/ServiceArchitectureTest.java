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

  /** Classes of some packages, to say what they may not depend on. */
  private record Rooms(String packages) {
    ArchRule seeNothingOf(String... others) {
      return noClasses()
          .that()
          .resideInAPackage(packages)
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage(others);
    }
  }

  private static final String SQL = "org.barmap.library.sql..";
  private static final String SQLITE = "org.barmap.library.sqlite..";
  private static final String POSTGRES = "org.barmap.library.postgres..";

  private static Rooms rooms(String packages) {
    return new Rooms(packages);
  }

  @ArchTest
  static final ArchRule planSeesTheMapOnly =
      rooms("org.barmap.plan..")
          .seeNothingOf(
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
      rooms("org.barmap.edit..")
          .seeNothingOf(
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
      rooms("org.barmap.library..")
          .seeNothingOf(
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
      rooms("org.barmap.web..")
          .seeNothingOf("org.barmap.cli..", "org.barmap.extract..", "org.barmap.reckon..");

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
          .haveNameNotMatching("org\\.barmap\\.cli\\.run\\.Logs(\\$.*)?")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("java.util.logging..", "org.slf4j..");

  @ArchTest
  static final ArchRule aDraftKnowsNoKindOfCorrection =
      rooms("org.barmap.edit.draft..")
          .seeNothingOf("org.barmap.edit", "org.barmap.edit.kind..", "org.barmap.edit.merge..");

  @ArchTest
  static final ArchRule kindsOfCorrectionKnowNoReading =
      rooms("org.barmap.edit.kind..").seeNothingOf("org.barmap.edit", "org.barmap.edit.merge..");

  @ArchTest
  static final ArchRule whatRoutesShareKnowsNoRoute =
      rooms("org.barmap.web.api..").seeNothingOf("org.barmap.web", "org.barmap.web.route..");

  @ArchTest
  static final ArchRule theStoreIsOpenedOnlyByWhoStartsTheService =
      noClasses()
          .that()
          .resideOutsideOfPackages(SQLITE, POSTGRES, SQL, "org.barmap.cli..")
          .and()
          .haveSimpleNameNotEndingWith("Test")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage(SQLITE, POSTGRES, SQL);

  @ArchTest
  static final ArchRule statementsKnowNoDatabase =
      rooms(SQL).seeNothingOf(SQLITE, POSTGRES, "org.sqlite..", "org.postgresql..");

  /** What gives books their turns can be changed for another engine in one room. */
  @ArchTest
  static final ArchRule theSchedulerIsKnownInOneRoom =
      noClasses()
          .that()
          .resideOutsideOfPackage("org.barmap.library.sql.turn..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("com.github.kagkarlsson..");

  @ArchTest
  static final ArchRule noRoomNeedsOneThatNeedsIt =
      slices().matching("org.barmap.(**)").should().beFreeOfCycles().allowEmptyShould(true);

  @ArchTest
  static final ArchRule noCycles = slices().matching("org.barmap.(*)..").should().beFreeOfCycles();
}
