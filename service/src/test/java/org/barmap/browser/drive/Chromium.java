package org.barmap.browser.drive;

import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Comparator;
import java.util.logging.Level;
import java.util.stream.Stream;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeDriverService;
import org.openqa.selenium.chrome.ChromeOptions;
import org.openqa.selenium.logging.LogType;
import org.openqa.selenium.logging.LoggingPreferences;

/**
 * One headless Chromium that runs. It is started for every class of tests: one that was lent again,
 * cleared, kept enough of what had been visited to make other tests fail.
 */
public final class Chromium implements AutoCloseable {

  private final ChromeDriver driver;
  private final Path profile;

  private Chromium(ChromeDriver driver, Path profile) {
    this.driver = driver;
    this.profile = profile;
  }

  /**
   * Starts one that knows nothing of any service.
   *
   * @throws AssertionError when Chromium or its driver is missing, with what to install
   */
  public static Chromium start() {
    Path chromium = program("chromium", "/usr/bin/chromium-browser");
    Path chromedriver = program("chromedriver", "/usr/lib/chromium/chromedriver");
    try {
      Path profile = Files.createTempDirectory("barmap-browser");
      ChromeOptions options = new ChromeOptions();
      options.setBinary(chromium.toFile());
      options.addArguments(
          "--headless=new",
          "--no-sandbox",
          "--disable-gpu",
          "--disable-quic",
          "--disable-dev-shm-usage",
          "--no-first-run",
          "--disable-background-networking",
          "--disable-component-update",
          "--disable-sync",
          "--autoplay-policy=no-user-gesture-required",
          "--user-data-dir=" + profile);
      LoggingPreferences logs = new LoggingPreferences();
      logs.enable(LogType.BROWSER, Level.SEVERE);
      options.setCapability("goog:loggingPrefs", logs);
      ChromeDriverService service =
          new ChromeDriverService.Builder().usingDriverExecutable(chromedriver.toFile()).build();
      return new Chromium(new ChromeDriver(service, options), profile);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Finds a program where a command is found, as {@code ./check} does, or in other places. */
  private static Path program(String name, String... places) {
    String path = System.getenv().getOrDefault("PATH", "");
    Stream<Path> commands =
        Arrays.stream(path.split(File.pathSeparator)).map(folder -> Path.of(folder, name));
    return Stream.concat(commands, Arrays.stream(places).map(Path::of))
        .filter(Files::isExecutable)
        .findFirst()
        .orElseThrow(
            () ->
                new AssertionError(
                    name
                        + " is missing: the browser tests need Debian's packages chromium and"
                        + " chromium-driver (apt-get install chromium chromium-driver)"));
  }

  /** Returns what it is told by. */
  public ChromeDriver driver() {
    return driver;
  }

  /** Ends it; nothing of it stays. */
  @Override
  public void close() {
    driver.quit();
    try (Stream<Path> files = Files.walk(profile)) {
      files.sorted(Comparator.reverseOrder()).forEach(p -> p.toFile().delete());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
