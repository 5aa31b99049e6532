package org.barmap.browser;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.barmap.browser.drive.Chromium;
import org.openqa.selenium.By;
import org.openqa.selenium.ElementClickInterceptedException;
import org.openqa.selenium.Keys;
import org.openqa.selenium.NoSuchElementException;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.interactions.Actions;
import org.openqa.selenium.support.ui.Select;

/** What a person sees and does in one headless Chromium, looking at one service. */
public final class Browser extends Window {

  private Browser(Chromium chromium, String base) {
    super(chromium, base);
  }

  /**
   * Opens a browser.
   *
   * @param base address of the service, without a slash at its end
   * @throws AssertionError when Chromium or its driver is missing, with what to install
   */
  public static Browser open(String base, int width, int height) {
    Browser browser = new Browser(Chromium.start(), base);
    browser.size(width, height);
    return browser;
  }

  /** Opens a browser that has been at a service before: it remembers the owner's key. */
  public static Browser open(RunningService service, int width, int height) {
    Browser browser = open(service.base(), width, height);
    String[] cookie = new Api(service).cookie(service.entry());
    browser
        .driver()
        .executeCdpCommand(
            "Network.setCookie",
            Map.of(
                "url",
                service.base() + "/",
                "name",
                cookie[0],
                "value",
                cookie[1],
                "httpOnly",
                true,
                "sameSite",
                "Strict",
                "expires",
                4_000_000_000L));
    return browser;
  }

  /** Waits until an element is there and shown. */
  public WebElement see(String css) {
    return waiting(30)
        .withMessage(() -> css + " was not shown; the page says: " + mainText())
        .until(
            d ->
                d.findElements(By.cssSelector(css)).stream()
                    .filter(WebElement::isDisplayed)
                    .findFirst()
                    .orElse(null));
  }

  /** Waits until an element shows a text. */
  public WebElement see(String css, String text) {
    return waiting(30)
        .withMessage(() -> css + " never said \"" + text + "\"; the page says: " + mainText())
        .until(
            d ->
                holding(css, text).stream()
                    .filter(e -> e.getText().contains(text))
                    .findFirst()
                    .orElse(null));
  }

  /**
   * Returns the elements that may show a text, asked of the page in one question: to ask each one
   * what it shows takes most of the time of a long list. What is shown may be in capitals, or
   * spaced otherwise.
   */
  private List<WebElement> holding(String css, String text) {
    Object found = script(HOLDING, css, text);
    return ((List<?>) found).stream().map(WebElement.class::cast).toList();
  }

  private static final String HOLDING =
      """
      const bare = (text) => text.replace(/\\s/g, "").toLowerCase();
      const wanted = bare(arguments[1]);
      return [...document.querySelectorAll(arguments[0])].filter((e) => bare(e.textContent).includes(wanted));
      """;

  /** Waits until so many elements are there. */
  public void count(String css, int wanted, int seconds) {
    waiting(seconds)
        .withMessage(
            () ->
                "not "
                    + wanted
                    + " but "
                    + all(css).size()
                    + " of "
                    + css
                    + "; the page says: "
                    + mainText())
        .until(d -> d.findElements(By.cssSelector(css)).size() == wanted);
  }

  public List<WebElement> all(String css) {
    return driver().findElements(By.cssSelector(css));
  }

  /** Returns an attribute of an element, which may be drawn anew meanwhile. */
  public String attribute(String css, String name) {
    return waiting(30).until(d -> String.valueOf(see(css).getDomAttribute(name)));
  }

  /** Clicks as soon as there is something to click; the page may be drawn anew meanwhile. */
  public void click(String css) {
    waiting(30)
        .ignoring(ElementClickInterceptedException.class)
        .withMessage(() -> css + " could not be clicked; the page says: " + mainText())
        .until(
            d -> {
              d.findElements(By.cssSelector(css)).stream()
                  .filter(WebElement::isDisplayed)
                  .findFirst()
                  .orElseThrow(() -> new NoSuchElementException(css))
                  .click();
              return true;
            });
  }

  /** Clicks with the mouse in the middle of an element, which may be drawn anew meanwhile. */
  public void point(String css) {
    waiting(30)
        .withMessage(() -> css + " could not be pointed at; the page says: " + mainText())
        .until(
            d -> {
              actions().moveToElement(see(css)).click().perform();
              return true;
            });
  }

  /** Returns where a point of the page on the desk is in the window, CSS pixels. */
  public List<?> screen(double x, double y) {
    return (List<?>)
        script(
            "const m = document.querySelector('.overlay').getScreenCTM();"
                + "const at = new DOMPoint(arguments[0], arguments[1]).matrixTransform(m);"
                + "return [at.x, at.y];",
            x,
            y);
  }

  /** Clicks at a point of the window, CSS pixels. */
  public void tap(List<?> at) {
    to(at).click().perform();
  }

  /** Clicks twice at a point of the window, CSS pixels. */
  public void twice(List<?> at) {
    to(at).doubleClick().perform();
  }

  private Actions to(List<?> at) {
    double x = ((Number) at.get(0)).doubleValue();
    double y = ((Number) at.get(1)).doubleValue();
    return actions().moveToLocation((int) Math.round(x), (int) Math.round(y));
  }

  /** Drags with the mouse from one point of the window to another, CSS pixels each. */
  public void drag(List<?> from, List<?> to) {
    int[] at = new int[4];
    for (int i = 0; i < 4; i++) {
      at[i] = (int) Math.round(((Number) (i < 2 ? from.get(i) : to.get(i - 2))).doubleValue());
    }
    actions()
        .moveToLocation(at[0], at[1])
        .clickAndHold()
        .moveToLocation((at[0] + at[2]) / 2, (at[1] + at[3]) / 2)
        .moveToLocation(at[2], at[3])
        .release()
        .perform();
  }

  /** Chooses one of a list by its value, as soon as the list has it. */
  public void choose(String css, String value) {
    waiting(30)
        .ignoring(NoSuchElementException.class)
        .withMessage(() -> css + " has no " + value + "; the page says: " + mainText())
        .until(
            d -> {
              new Select(see(css)).selectByValue(value);
              return true;
            });
  }

  /** Types into an emptied field, which may be drawn anew meanwhile. */
  public void type(String css, String text) {
    waiting(30)
        .withMessage(() -> css + " could not be typed into; the page says: " + mainText())
        .until(
            d -> {
              WebElement field = see(css);
              field.clear();
              field.sendKeys(text);
              return true;
            });
  }

  /** Empties a field, which may be drawn anew meanwhile. */
  public void empty(String css) {
    waiting(30)
        .withMessage(() -> css + " could not be emptied; the page says: " + mainText())
        .until(
            d -> {
              see(css).clear();
              return true;
            });
  }

  /** Gives files to a file field, shown or not. */
  public void files(String css, List<Path> files) {
    WebElement field =
        waiting(20)
            .until(d -> d.findElements(By.cssSelector(css)).stream().findFirst().orElse(null));
    field.sendKeys(
        String.join("\n", files.stream().map(p -> p.toAbsolutePath().toString()).toList()));
  }

  public Actions actions() {
    return new Actions(driver());
  }

  /** Presses keys on the page, not in a field. */
  public void press(CharSequence... keys) {
    actions().sendKeys(keys).perform();
  }

  /** Takes the last step back, as the keys do. */
  public void undo() {
    actions().keyDown(Keys.CONTROL).sendKeys("z").keyUp(Keys.CONTROL).perform();
  }

  /** Makes the step taken back again, as the keys do. */
  public void redo() {
    actions()
        .keyDown(Keys.CONTROL)
        .keyDown(Keys.SHIFT)
        .sendKeys("z")
        .keyUp(Keys.SHIFT)
        .keyUp(Keys.CONTROL)
        .perform();
  }
}
