package org.barmap.work.engine;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.jar.JarEntry;
import java.util.jar.JarOutputStream;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.tools.ToolProvider;
import org.barmap.extract.engine.Engine;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A jar as a maker of an engine makes it: compiled against the interface, named as a service. */
class PluginsTest {

  private static final Path PAGE =
      Path.of(System.getProperty("barmap.home", "..")).resolve("corpus/saltmarsh/page-01.png");

  /** One that fails, and sees no library of ours. */
  private static final String FAILS =
      """
      package com.example.reader;
      public final class OneBarAPage implements org.barmap.extract.engine.Engine {
        public void read(java.util.List<java.nio.file.Path> pages, java.nio.file.Path out) throws Exception {
          try {
            Class.forName("tools.jackson.databind.JsonNode");
          } catch (ClassNotFoundException apart) {
            throw new IllegalStateException("no licence");
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

  /** The example in the documentation. */
  private static String documented() throws IOException {
    Path page =
        Path.of(System.getProperty("barmap.home", "..")).resolve("web-static/docs/engines.html");
    Matcher code =
        Pattern.compile("(?s)<code id=\"plugin\">(.*?)</code>").matcher(Files.readString(page));
    assertThat(code.find()).isTrue();
    return code.group(1).replace("&lt;", "<").replace("&gt;", ">").replace("&amp;", "&");
  }

  private void jar(Path jar, String java) throws IOException {
    Path source = Files.writeString(folder.resolve("OneBarAPage.java"), java);
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
      out.putNextEntry(new JarEntry("com/example/reader/OneBarAPage.class"));
      out.write(Files.readAllBytes(folder.resolve("com/example/reader/OneBarAPage.class")));
      out.putNextEntry(new JarEntry("META-INF/services/" + Engine.class.getName()));
      out.write("com.example.reader.OneBarAPage\n".getBytes(StandardCharsets.UTF_8));
    }
  }

  @Test
  void aJarIsAnEngineByItsNameAndReadsInAProcessOfItsOwn() throws Exception {
    jar(plugins.resolve("mine.jar"), documented());
    jar(Files.createDirectory(plugins.resolve("other")).resolve("x.jar"), FAILS);
    Plugins there = new Plugins(plugins);
    assertThat(there.names()).containsExactly("mine", "other");
    assertThat(there.named("../mine")).isEmpty();
    try (EngineRun run = EngineRun.of(List.of(PAGE), EngineLimits.STANDARD)) {
      EngineOutcome read = run.ask(there.named("mine").orElseThrow(), "");
      assertThat(read).isInstanceOf(EngineOutcome.Done.class);
      assertThat(((EngineOutcome.Done) read).part().measures()).hasSize(1);
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
