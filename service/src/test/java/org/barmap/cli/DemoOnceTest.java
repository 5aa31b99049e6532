package org.barmap.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import org.barmap.cli.run.Logs;
import org.barmap.map.BarMap;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.PlanSchema;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The demo book, all the way and for real. */
class DemoOnceTest {

  @TempDir private Path folder;

  @BeforeAll
  static void quiet() {
    Logs.quiet();
  }

  @Test
  void theDemoWritesMapOverlaysAndPlan() throws IOException {
    Path out = folder.resolve("out put");
    Ran ran = Ran.barmap("demo", "--once", out);
    assertThat(ran.code()).as(ran.err()).isZero();
    BarMap map = BarMapJson.read(out.resolve("saltmarsh.barmap.json"));
    assertThat(map.pages()).hasSize(9);
    assertThat(map.bars()).isNotEmpty();
    for (String plan : new String[] {"plan.json", "plan-as-written.json"}) {
      assertThat(
              PlanSchema.check(BarMapJson.mapper().readTree(Files.readString(out.resolve(plan)))))
          .isEmpty();
    }
    try (Stream<Path> overlays = Files.list(out.resolve("overlays"))) {
      assertThat(overlays).hasSize(9);
    }
    assertThat(ran.out()).contains("9 pages").contains("bars played").contains("turn");
    Ran plan = Ran.barmap("plan", out.resolve("saltmarsh.barmap.json"));
    assertThat(plan.code()).isZero();
    assertThat(plan.out()).contains("bars written");
  }
}
