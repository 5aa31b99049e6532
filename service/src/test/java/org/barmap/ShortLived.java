package org.barmap;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** The beginning of a command that starts a Java program of the tests. */
public final class ShortLived {

  private ShortLived() {}

  /** Returns the words: most such programs end before the second compiler pays. */
  public static List<String> java(String... options) {
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.addAll(List.of("-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC"));
    command.add("-Djava.awt.headless=true");
    command.addAll(List.of(options));
    return command;
  }
}
