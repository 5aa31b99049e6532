package org.barmap.extract;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.net.URL;
import java.net.URLClassLoader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.tools.ToolProvider;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.json.BarMapJson;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The program in the documentation, taken out of it, compiled and run on a page of the demo. */
class DocumentedUseTest {

  private static final Path HOME = Path.of(System.getProperty("barmap.home", ".."));

  @TempDir private Path folder;

  private static String said(String id) throws IOException {
    String page = Files.readString(HOME.resolve("web-static/docs/library.html"));
    Matcher code = Pattern.compile("(?s)<code id=\"" + id + "\">(.*?)</code>").matcher(page);
    assertThat(code.find()).as(id).isTrue();
    return code.group(1).replace("&lt;", "<").replace("&gt;", ">").replace("&amp;", "&");
  }

  private void compile(String source) throws IOException {
    Path file = Files.writeString(folder.resolve("ReadABook.java"), source);
    ByteArrayOutputStream said = new ByteArrayOutputStream();
    int code =
        ToolProvider.getSystemJavaCompiler()
            .run(
                null,
                said,
                said,
                "-proc:none",
                "-cp",
                System.getProperty("java.class.path"),
                "-d",
                folder.toString(),
                file.toString());
    assertThat(code).as(said.toString(StandardCharsets.UTF_8)).isZero();
  }

  @Test
  void theTenLinesReadABook() throws Exception {
    compile(said("ten-lines"));
    Path page = HOME.resolve("corpus/saltmarsh/page-01.png");
    Path map = folder.resolve("map.json");
    ByteArrayOutputStream printed = new ByteArrayOutputStream();
    PrintStream before = System.out;
    try (URLClassLoader loader = new URLClassLoader(new URL[] {folder.toUri().toURL()})) {
      System.setOut(new PrintStream(printed, true, StandardCharsets.UTF_8));
      loader
          .loadClass("ReadABook")
          .getMethod("main", String[].class)
          .invoke(null, (Object) new String[] {page.toString(), map.toString()});
    } finally {
      System.setOut(before);
    }
    // the truth beside the page is the oracle
    BarMap truth = BarMapJson.read(HOME.resolve("corpus/saltmarsh/page-01.json"));
    assertThat(printed.toString(StandardCharsets.UTF_8).lines())
        .containsExactlyElementsOf(truth.bars().stream().map(DocumentedUseTest::line).toList());
    assertThat(BarMapJson.read(map).book().title()).isEqualTo("Saltmarsh");
  }

  private static String line(Bar bar) {
    return "page " + bar.page() + ", bar " + bar.number() + ", " + bar.count() + " long";
  }

  @Test
  void theDependencyIsThisOne() throws IOException {
    String pom = Files.readString(HOME.resolve("extractor/pom.xml"));
    String said = said("dependency");
    for (String tag : new String[] {"groupId", "version"}) {
      assertThat(value(said, tag)).isEqualTo(value(pom, tag));
    }
    assertThat(pom).contains("  <artifactId>" + value(said, "artifactId") + "</artifactId>");
  }

  private static String value(String xml, String tag) {
    Matcher value = Pattern.compile("<" + tag + ">(.*?)</" + tag + ">").matcher(xml);
    assertThat(value.find()).isTrue();
    return value.group(1);
  }
}
