package org.barmap.browser;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import org.junit.jupiter.api.Test;
import org.openqa.selenium.Keys;

/** The director's bar numbers beside the demo book: typed in, corrected, read beside changes. */
class AlignBrowserTest extends VisitingTest.OfReadyBook {

  /** The demo book's No. 1 has A at 14, B at 26 … F at 102; here are 4 bars more before B. */
  private static final String LIST = "1: A 14, B 30, C 41, D 55, E 77, F 106, end 118\n2: end 115";

  @Test
  void aDirectorsListIsTypedCorrectedAndReadBesideTheChanges() throws IOException {
    DemoBook.changesInto(api, book);
    browser.go("/align.html?b=" + book);
    browser.click("#align-type");
    browser.type("dialog textarea", "1: A 14");
    browser.click("dialog [type=submit]");
    browser.see(".toast", "say at which bar it ends");
    browser.click("#align-type");
    browser.type("dialog textarea", LIST);
    assertThat(Axe.violations(browser)).isEmpty();
    browser.click("dialog [type=submit]");
    browser.see("#align-head", "2 numbers in both");
    browser.see("#align-head", "Only in");
    browser.see("#align-0 .align-unsure", "not sure which is which");
    assertThat(Axe.violations(browser)).isEmpty();

    browser.type("#pin-here-0", "20");
    browser.type("#pin-there-0", "20");
    browser.press(Keys.ENTER);
    browser.see("#align-0 .align-pins", "You said");
    browser.size(390, 844);
    assertThat(browser.script("return document.documentElement.scrollWidth <= innerWidth"))
        .isEqualTo(true);
    assertThat(Axe.violations(browser)).isEmpty();
    browser.size(1440, 900);

    browser.click("#carry-there");
    browser.see("dialog", "can't be carried");
    assertThat(Axe.violations(browser)).isEmpty();
    browser.press(Keys.ESCAPE);
    browser.go("/road.html?b=" + book);
    browser.see(".change-beside", "Director's bar numbers:");
    browser.go("/align.html?b=" + book);
    browser.click("#align-remove");
    browser.click("dialog [type=submit]");
    browser.see("#align-none");
    assertThat(browser.complaints()).allMatch(c -> c.contains("422"));
  }
}
