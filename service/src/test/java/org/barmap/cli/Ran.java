package org.barmap.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.barmap.ShortLived;
import picocli.CommandLine;

/**
 * What a command did.
 *
 * @param code exit code
 * @param out standard output
 * @param err standard error
 */
record Ran(int code, String out, String err) {

  /** Runs a command in this process. */
  static Ran barmap(Object... args) {
    CommandLine line = Main.commandLine();
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    line.setOut(new PrintWriter(out));
    line.setErr(new PrintWriter(err));
    String[] words = List.of(args).stream().map(String::valueOf).toArray(String[]::new);
    int code = line.execute(words);
    return new Ran(code, out.toString(), err.toString());
  }

  /**
   * Runs a command in a process that may not read what a file's permissions forbid, even when the
   * tests run as root: {@code setpriv} of util-linux takes that right of root's away.
   */
  static Ran withoutRights(Object... args) throws IOException {
    String rights = "-dac_override,-dac_read_search";
    List<String> command = new ArrayList<>();
    command.addAll(List.of("setpriv", "--bounding-set", rights, "--inh-caps", rights));
    command.addAll(ShortLived.java("-cp", System.getProperty("java.class.path")));
    command.add(Main.class.getName());
    for (Object arg : args) {
      command.add(String.valueOf(arg));
    }
    Path err = Files.createTempFile("barmap", ".err");
    try {
      Process process = new ProcessBuilder(command).redirectError(err.toFile()).start();
      String out = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
      return new Ran(process.waitFor(), out, Files.readString(err));
    } catch (InterruptedException e) {
      throw new IOException(e);
    } finally {
      Files.delete(err);
    }
  }

  /** Returns the lines that tell the user what is wrong. */
  List<String> complaints() {
    return err.lines().filter(l -> l.startsWith("barmap: ")).toList();
  }
}
