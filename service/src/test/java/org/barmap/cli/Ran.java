package org.barmap.cli;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.List;
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

  /** Returns the lines that tell the user what is wrong. */
  List<String> complaints() {
    return err.lines().filter(l -> l.startsWith("barmap: ")).toList();
  }
}
