package org.barmap.browser;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;

/** What stands in people's way on a page, by axe-core (Deque): WCAG 2.0 and 2.1, A and AA. */
public final class Axe {

  private Axe() {}

  /** Returns a line for each rule that the page shown breaks, with the elements. */
  public static List<?> violations(Browser browser) {
    if (browser.script("return typeof window.axe").equals("undefined")) {
      browser.script(axe());
    }
    return (List<?>)
        browser.asyncScript(
            "const done = arguments[arguments.length - 1];"
                + "axe.run(document, {resultTypes: ['violations'], preload: false, iframes: false, runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa']}).then("
                + "r => done(r.violations.map(v => v.id + ': ' + v.nodes.map(n => n.html).join(' | '))))");
  }

  private static String axe() {
    String path = "/META-INF/resources/webjars/axe-core/4.6.3/axe.min.js";
    try (InputStream in = Axe.class.getResourceAsStream(path)) {
      if (in == null) {
        throw new AssertionError("axe-core is not among the test's dependencies");
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
