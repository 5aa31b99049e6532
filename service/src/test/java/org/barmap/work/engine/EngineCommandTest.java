package org.barmap.work.engine;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Words as POSIX shells cut them (Shell Command Language, 2.2 Quoting), and nothing more. */
class EngineCommandTest {

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      value = {
        "run {pages} {out}|run|run,{pages},{out}",
        "/opt/a b/run   {pages} {out}\t|a|/opt/a,b/run,{pages},{out}",
        "'/opt/a b/run' --in={pages} {out}/x.xml|run|/opt/a b/run,--in={pages},{out}/x.xml",
        "/opt/a\\ b/run {pages} \"{out}/it's\"|run|/opt/a b/run,{pages},{out}/it's",
        "x \"a\\\"b\\\\c\\d\" '' '\\n' {pages}{out}|x|x,a\"b\\c\\d,,\\n,{pages}{out}",
        "Leser-2=run {pages} {out}|Leser-2|run,{pages},{out}",
        "run {pages} {out} ; rm -rf $HOME|run|run,{pages},{out},;,rm,-rf,$HOME",
        "run --in={pages} {out}|run|run,--in={pages},{out}",
      })
  void itIsCutIntoWords(String text, String name, String words) {
    EngineCommand command = EngineCommand.of(text);
    assertThat(String.join(",", command.words())).isEqualTo(words);
    assertThat(command.name()).isEqualTo(name);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"", "run", "run {pages}", "run {out}", "'run {pages} {out}", "'' {pages} {out}"})
  void whatCanNotBeRunIsRefused(String text) {
    assertThatThrownBy(() -> EngineCommand.of(text)).isInstanceOf(IllegalArgumentException.class);
  }

  @Test
  void theFoldersStandForTheirWordsWhateverTheyAreCalled() {
    EngineCommand command = EngineCommand.of("run {pages} {out}/a");
    assertThat(command.with(Path.of("/a b/{out}"), Path.of("/c")))
        .isEqualTo(List.of("run", "/a b/{out}", "/c/a"));
  }
}
