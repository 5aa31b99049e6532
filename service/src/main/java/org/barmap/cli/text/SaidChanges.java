package org.barmap.cli.text;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.barmap.cli.out.CommandException;
import org.barmap.cli.out.ExitCode;
import org.barmap.exchange.chair.Carrying;
import org.barmap.exchange.chair.TheirBars;
import org.barmap.exchange.chair.TheirWords;
import org.barmap.map.BarMap;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.words.ChangeWords;
import org.barmap.plan.words.earlier.Known;

/**
 * The changes a command is given, as a file and in words, said in this book's bars. A plan that
 * lacks one of them would mislead: what is asked back is refused, all of it in one message.
 *
 * @param map this book's
 * @param theirs the other book's words, where they go by its bars
 */
public record SaidChanges(BarMap map, Optional<TheirWords> theirs) {

  /**
   * Looks whose bars the changes go by.
   *
   * @param whose mine or director
   */
  public static SaidChanges of(BarMap map, Optional<BarMap> other, String whose) {
    boolean director = whose.equals("director") || whose.equals("director's");
    if (!director && !whose.equals("mine")) {
      throw new CommandException(
          ExitCode.WRONG_USE, "--numbers is mine or director, not \"" + whose + "\"");
    }
    if (director && other.isEmpty()) {
      throw new CommandException(
          ExitCode.WRONG_USE,
          "--numbers director needs --beside DIRECTOR.json, the map of the director's book");
    }
    return new SaidChanges(
        map, other.filter(o -> director).map(o -> new TheirWords(TheirBars.of(map, o), o)));
  }

  /**
   * Returns the changes of a file and of words, in this order.
   *
   * @param day the day that is planned, which "tonight" is; empty where nobody said one
   */
  public ShowChanges all(ShowChanges read, List<String> words, Optional<String> day) {
    List<ShowChange> all = new ArrayList<>();
    List<String> asked = new ArrayList<>();
    if (theirs.isPresent()) {
      Carrying.Carried carried = theirs.get().carried(read.changes());
      carried.left().forEach(l -> asked.add(l.says() + ": " + l.why()));
      all.addAll(carried.changes());
    } else {
      all.addAll(read.changes());
    }
    String text = String.join("\n", words);
    List<Heard<ShowChange>> heard =
        words.isEmpty()
            ? List.of()
            : theirs
                .map(t -> t.understand(text))
                .orElseGet(() -> ChangeWords.understand(map, text, Known.of(all, day)));
    for (Heard<ShowChange> one : heard) {
      if (one instanceof Heard.Understood<ShowChange> understood) {
        all.add(understood.change());
      } else if (one instanceof Heard.AskedBack<ShowChange> back) {
        asked.add(question(back));
      }
    }
    if (!asked.isEmpty()) {
      throw new CommandException(ExitCode.WRONG_USE, String.join("\n", asked));
    }
    return new ShowChanges(all);
  }

  private static String question(Heard.AskedBack<ShowChange> back) {
    Stream<String> ways =
        Stream.concat(
            back.readings().stream().map(Heard.Reading::says), back.candidates().stream());
    List<String> possible = ways.distinct().toList();
    return "\""
        + back.said()
        + "\" is asked back: "
        + back.question()
        + (possible.isEmpty() ? "" : " Possible: " + String.join("; ", possible));
  }
}
