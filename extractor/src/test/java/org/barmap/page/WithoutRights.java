package org.barmap.page;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/**
 * Runs a main class in a process that may not read what a file's permissions forbid, even when the
 * tests run as root: {@code setpriv} of util-linux takes that right of root's away.
 */
final class WithoutRights {

  private WithoutRights() {}

  /** Returns what the class printed. */
  static String run(Class<?> main, Path file) throws IOException {
    List<String> command = new ArrayList<>();
    String rights = "-dac_override,-dac_read_search";
    command.addAll(List.of("setpriv", "--bounding-set", rights, "--inh-caps", rights));
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.addAll(List.of("-Djava.awt.headless=true", "-cp"));
    command.addAll(List.of(System.getProperty("java.class.path"), main.getName()));
    command.add(file.toString());
    Process process =
        new ProcessBuilder(command).redirectError(ProcessBuilder.Redirect.INHERIT).start();
    try (InputStream out = process.getInputStream()) {
      return new String(out.readAllBytes(), StandardCharsets.UTF_8);
    }
  }
}
