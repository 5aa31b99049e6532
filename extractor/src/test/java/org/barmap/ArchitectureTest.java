package org.barmap;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.core.domain.Dependency;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchCondition;
import com.tngtech.archunit.lang.ArchRule;
import com.tngtech.archunit.lang.ConditionEvents;
import com.tngtech.archunit.lang.SimpleConditionEvent;
import java.util.Arrays;
import java.util.List;

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
      nobodyUses(
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
  static final ArchRule noCyclesInReckon =
      slices().matching("org.barmap.reckon.(*)..").should().beFreeOfCycles();

  @ArchTest
  static final ArchRule noCyclesInSign =
      slices().matching("org.barmap.sign.(*)..").should().beFreeOfCycles();

  @ArchTest
  static final ArchRule roomsOfTheReckoning =
      oneWay("reckon", "set", "cells", "cost", "solve", "book", "write", "compare", "second");

  @ArchTest
  static final ArchRule roomsOfTheSigns =
      oneWay("sign", "set", "kind", "hand", "strip", "net", "rule");

  @ArchTest static final ArchRule roomsOfThePages = oneWay("page", "pixel", "file", "level");

  /** Files are opened, and photographs looked at, without each other. */
  @ArchTest static final ArchRule looksOpenNoFiles = apart("page.level", "page.file");

  @ArchTest
  static final ArchRule recordsUseNoRoom =
      noClasses()
          .that()
          .resideInAPackage("org.barmap.map")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("org.barmap.map.*..");

  @ArchTest static final ArchRule rulesKnowNoJson = apart("map.rule", "map.json");

  /** Signs are decided by rules on the ink, not by asking a network again. */
  @ArchTest static final ArchRule rulesAskNoNetwork = apart("sign.rule", "sign.net");

  /** The search knows nothing of signs or bars. */
  @ArchTest
  static final ArchRule searchKnowsNoSigns =
      apart("reckon.solve", "reckon.set", "reckon.cells", "reckon.cost", "sign", "map");

  @ArchTest
  static final ArchRule onlyJackson3 =
      nobodyUses("com.fasterxml.jackson.core..", "com.fasterxml.jackson.databind..");

  @ArchTest
  static final ArchRule nobodyPrints =
      noClasses()
          .should()
          .accessField(System.class, "out")
          .orShould()
          .accessField(System.class, "err");

  private static ArchRule nobodyUses(String... packages) {
    return noClasses().should().dependOnClassesThat().resideInAnyPackage(packages);
  }

  /** The rooms in the order in which the data goes: none uses a later one, nor the root. */
  private static ArchRule oneWay(String stage, String... rooms) {
    String root = "org.barmap." + stage;
    List<String> order = Arrays.stream(rooms).map(r -> root + "." + r).toList();
    return classes()
        .that()
        .resideInAPackage(root + ".*..")
        .should(
            new ArchCondition<JavaClass>("use only rooms before their own") {
              @Override
              public void check(JavaClass from, ConditionEvents events) {
                int own = order.indexOf(from.getPackageName());
                if (own < 0) {
                  events.add(SimpleConditionEvent.violated(from, from.getName() + " in no room"));
                }
                for (Dependency use : from.getDirectDependenciesFromSelf()) {
                  String to = use.getTargetClass().getPackageName();
                  if (to.equals(root) || order.indexOf(to) > own) {
                    events.add(SimpleConditionEvent.violated(use, use.getDescription()));
                  }
                }
              }
            });
  }

  private static ArchRule apart(String room, String... others) {
    return noClasses()
        .that()
        .resideInAPackage("org.barmap." + room + "..")
        .should()
        .dependOnClassesThat()
        .resideInAnyPackage(
            Arrays.stream(others).map(o -> "org.barmap." + o + "..").toArray(String[]::new));
  }

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
                        || Arrays.stream(allowed)
                            .anyMatch(a -> c.getPackageName().startsWith("org.barmap." + a))))
        .allowEmptyShould(true);
  }
}
