package org.barmap.work.engine;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashMap;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** What another program is not told. */
class EngineProcessTest {

  @Test
  void passwordsAndKeysOfOurStoresAreNotPassedOn() {
    Map<String, String> environment =
        new HashMap<>(
            Map.of(
                "BARMAP_DATABASE_PASSWORD", "x",
                "AWS_SECRET_ACCESS_KEY", "x",
                "AWS_SESSION_TOKEN", "x",
                "PGPASSWORD", "x",
                "PATH", "/bin",
                "LANG", "C.UTF-8"));
    EngineProcess.withoutKeys(environment);
    assertThat(environment).containsOnlyKeys("PATH", "LANG");
  }
}
