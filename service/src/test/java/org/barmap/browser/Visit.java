package org.barmap.browser;

import java.nio.file.Path;

/** A service on a data folder, a browser at it, and its API beside them. */
public record Visit(RunningService service, Browser browser, Api api) implements AutoCloseable {

  /** Starts the service and opens a window of some size, pixels. */
  public static Visit to(Path data, int width, int height) {
    return to(RunningService.here(data), width, height);
  }

  /** Opens a window of some size, pixels, at a service that runs. */
  static Visit to(RunningService service, int width, int height) {
    return new Visit(service, Browser.open(service, width, height), new Api(service));
  }

  /** Makes a book as a player does, and returns its id. */
  String newBook(String title, String part) {
    browser.go("/");
    browser.click("#new-book");
    browser.type("dialog [name=title]", title);
    browser.type("dialog [name=part]", part);
    browser.click("dialog [type=submit]");
    browser.see("h1", title);
    return browser.path().replaceAll(".*b=", "");
  }

  @Override
  public void close() {
    browser.close();
    service.close();
  }
}
