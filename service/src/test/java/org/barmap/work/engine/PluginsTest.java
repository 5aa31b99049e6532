package org.barmap.work.engine;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.jar.JarEntry;
import java.util.jar.JarOutputStream;
import javax.tools.ToolProvider;
import org.barmap.extract.engine.Engine;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A jar as a maker of an engine makes it: compiled against the interface, named as a service. */
class PluginsTest {

  private static final Path PAGE =
      Path.of(System.getProperty("barmap.home", "..")).resolve("corpus/saltmarsh/page-01.png");

  private static final String SOURCE =
      """
      import java.nio.file.*;
      import java.util.List;
      public class Mine implements org.barmap.extract.engine.Engine {
        public void read(List<Path> pages, Path out) throws Exception {
          try { Class.forName("tools.jackson.databind.JsonNode"); }
          catch (ClassNotFoundException apart) {
            if (%b) throw new IllegalStateException("no licence");
            Files.writeString(out.resolve("a.musicxml"), \"\"\"
                <score-partwise><part-list><score-part id="P1"><part-name>B</part-name></score-part></part-list>
                <part id="P1">%%s</part></score-partwise>\"\"\".formatted("<measure number='1'/>".repeat(pages.size() + 1)));
          }
        }
      }
      """;

  @TempDir private Path folder;

  private Path plugins;

  @BeforeEach
  void make() throws IOException {
    plugins = Files.createDirectory(folder.resolve("plugins"));
  }

  private void jar(Path jar, boolean fails) throws IOException {
    Path source = Files.writeString(folder.resolve("Mine.java"), SOURCE.formatted(fails));
    int code =
        ToolProvider.getSystemJavaCompiler()
            .run(
                null,
                null,
                null,
                "-cp",
                System.getProperty("java.class.path"),
                "-d",
                folder.toString(),
                source.toString());
    assertThat(code).isZero();
    try (JarOutputStream out = new JarOutputStream(Files.newOutputStream(jar))) {
      out.putNextEntry(new JarEntry("Mine.class"));
      out.write(Files.readAllBytes(folder.resolve("Mine.class")));
      out.putNextEntry(new JarEntry("META-INF/services/" + Engine.class.getName()));
      out.write("Mine\n".getBytes(StandardCharsets.UTF_8));
    }
  }

  @Test
  void aJarIsAnEngineByItsNameAndReadsInAProcessOfItsOwn() throws Exception {
    jar(plugins.resolve("mine.jar"), false);
    jar(Files.createDirectory(plugins.resolve("other")).resolve("x.jar"), true);
    Plugins there = new Plugins(plugins);
    assertThat(there.names()).containsExactly("mine", "other");
    assertThat(there.named("../mine")).isEmpty();
    try (EngineRun run = EngineRun.of(List.of(PAGE), EngineLimits.STANDARD)) {
      EngineOutcome read = run.ask(there.named("mine").orElseThrow(), "");
      assertThat(read).isInstanceOf(EngineOutcome.Done.class);
      assertThat(((EngineOutcome.Done) read).part().measures()).hasSize(2);
      EngineOutcome fails = run.ask(there.named("other").orElseThrow(), "");
      assertThat(fails).isInstanceOf(EngineOutcome.Failed.class);
      assertThat(((EngineOutcome.Failed) fails).why())
          .startsWith("other ended with exit code 1: Exception in thread")
          .endsWith("no licence");
    }
  }

  @Test
  void withoutAFolderThereAreNone() throws IOException {
    Plugins none = new Plugins(folder.resolve("nowhere"));
    assertThat(none.names()).isEmpty();
    assertThat(none.named("mine")).isEmpty();
  }
}
