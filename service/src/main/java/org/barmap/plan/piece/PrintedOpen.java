package org.barmap.plan.piece;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.barmap.map.Bar;
import org.barmap.map.Word;
import org.barmap.plan.change.Addresses;
import org.barmap.plan.change.Found;
import org.barmap.plan.change.WrittenNumber;

/**
 * A "Vamp" or "Safety" printed at a bar.
 *
 * @param slot the bar it is printed at
 * @param word what it says
 * @param text the word as printed
 * @param to slot of its last bar where the word names its bars, or how many; its first bar is then
 *     {@code from}
 * @param from slot of its first bar
 */
public record PrintedOpen(int slot, OpenWord word, String text, int from, OptionalInt to) {

  /** Returns what is printed in a number, in reading order; one for each bar. */
  public static List<PrintedOpen> of(WrittenNumber number) {
    List<PrintedOpen> found = new ArrayList<>();
    for (int i = 0; i < number.bars().size(); i++) {
      Bar bar = number.bars().get(i);
      if (!bar.words().isEmpty()) {
        int slot = number.starts()[i];
        at(bar).ifPresent(w -> found.add(located(number, slot, w)));
      }
    }
    return found;
  }

  private record Printed(OpenWord word, String text) {}

  private static Optional<Printed> at(Bar bar) {
    Optional<Printed> found = Optional.empty();
    for (Word word : bar.words()) {
      Optional<OpenWord> read = OpenWord.read(word.text());
      if (found.isEmpty() && read.isPresent()) {
        found = read.map(r -> new Printed(r, word.text()));
      }
    }
    for (Word word : bar.words()) {
      Optional<PrintedTimes> times = PrintedTimes.read(word.text()).filter(PrintedTimes::sure);
      if (times.isPresent()) {
        int often = times.get().times();
        found = found.map(f -> new Printed(f.word().times(often), f.text() + " " + word.text()));
      }
      boolean beside = OpenWord.read(word.text()).isEmpty() && OpenWord.beside(word.text());
      if (beside) {
        found = found.map(f -> new Printed(f.word().with(word.text()), f.text()));
      }
    }
    return found;
  }

  private static PrintedOpen located(WrittenNumber number, int slot, Printed printed) {
    OpenWord word = printed.word();
    if (word.count().isPresent() && word.count().getAsInt() > 0) {
      int to = slot + word.count().getAsInt() - 1;
      OptionalInt last = to < number.slots() ? OptionalInt.of(to) : OptionalInt.empty();
      return new PrintedOpen(slot, word, printed.text(), slot, last);
    }
    if (word.first().isPresent()) {
      Addresses addresses = new Addresses(number);
      OptionalInt from = at(addresses, word.first().get());
      OptionalInt to = at(addresses, word.last().orElse(""));
      if (from.isPresent() && to.isPresent() && from.getAsInt() <= to.getAsInt()) {
        return new PrintedOpen(slot, word, printed.text(), from.getAsInt(), to);
      }
    }
    return new PrintedOpen(slot, word, printed.text(), slot, OptionalInt.empty());
  }

  private static OptionalInt at(Addresses addresses, String bar) {
    return addresses.find(bar) instanceof Found.At at
        ? OptionalInt.of(at.place().slot())
        : OptionalInt.empty();
  }
}
