package org.barmap.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Properties;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import picocli.CommandLine;
import picocli.CommandLine.Model.ArgSpec;
import picocli.CommandLine.Model.CommandSpec;

/** What {@code --help} says stands apart from the options: none is forgotten, none left over. */
class HelpTest {

  private static List<CommandSpec> commands() {
    List<CommandSpec> all = new ArrayList<>();
    for (CommandLine line : Main.commandLine().getSubcommands().values()) {
      all.add(line.getCommandSpec());
    }
    return all;
  }

  @Test
  void everyCommandAndOptionIsExplained() {
    for (CommandSpec command : commands()) {
      assertThat(command.usageMessage().description()).as(command.name()).isNotEmpty();
      for (ArgSpec arg : command.args()) {
        assertThat(arg.description()).as(command.name() + " " + arg).isNotEmpty();
      }
    }
  }

  @Test
  void everyTextExplainsSomething() throws IOException {
    Properties texts = new Properties();
    try (InputStream in = Main.class.getResourceAsStream("help.properties")) {
      texts.load(Objects.requireNonNull(in));
    }
    Set<String> keys = new TreeSet<>();
    for (CommandSpec command : commands()) {
      for (String before : List.of("barmap." + command.name() + ".", "")) {
        keys.add(before + "usage.description");
        command.options().forEach(o -> keys.add(before + o.longestName().replaceFirst("--", "")));
        command
            .positionalParameters()
            .forEach(p -> keys.add(before + p.paramLabel() + "[" + p.index() + "]"));
      }
    }
    assertThat(texts.stringPropertyNames())
        .allSatisfy(text -> assertThat(keys).contains(text.replaceFirst("\\.\\d+$", "")));
  }
}
