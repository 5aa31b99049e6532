package org.barmap.exchange.chair;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.barmap.exchange.CutList;
import org.barmap.plan.change.Addresses;
import org.barmap.plan.change.ChangesJson;
import org.barmap.plan.change.Found;
import org.barmap.plan.change.Place;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.term.Figures;
import tools.jackson.databind.node.ObjectNode;

/**
 * Says changes of one part in the bars of another.
 *
 * @param parts from which, and to which
 * @param called as sentences name them
 * @param pit what is of one chair only is left
 */
record Carrier(TwoParts parts, Called called, boolean pit) {

  /** The keys of {@code changes/1} that name bars of the change's own number. */
  private static final List<String> ADDRESSES =
      List.of("first", "last", "after", "before", "exitBar", "from");

  /** The kinds that one player does and the others of the pit don't. */
  private static final Set<String> OF_THE_CHAIR = Set.of("instrument", "tacet");

  /** The two parts, as a sentence names them. */
  record Called(String from, String to, String barsOf) {
    static final Called BOOKS = new Called("this book", "the other book", "");

    /** Begins a sentence. */
    String begins() {
      return to.substring(0, 1).toUpperCase(Locale.ROOT) + to.substring(1);
    }
  }

  /** Carries what can be carried. */
  Carrying.Carried all(List<ShowChange> changes) {
    List<ShowChange> carried = new ArrayList<>();
    List<Carrying.Left> left = new ArrayList<>();
    for (ShowChange change : changes) {
      try {
        carried.add(one(change));
      } catch (NotCarried e) {
        left.add(new Carrying.Left(change, CutList.line(change), String.valueOf(e.getMessage())));
      }
    }
    return new Carrying.Carried(carried, left);
  }

  /** Why a change can't be carried. */
  private static final class NotCarried extends Exception {
    private static final long serialVersionUID = 1L;

    NotCarried(String why) {
      super(why);
    }
  }

  private ShowChange one(ShowChange change) throws NotCarried {
    ObjectNode node = ChangesJson.tree(change);
    if (pit && isOfTheChair(node)) {
      throw new NotCarried("It is about this chair only.");
    }
    if (node.has("numbers")) {
      for (var label : node.path("numbers")) {
        number(label.asString());
      }
      return change;
    }
    if (change.number().isBlank() && change.where().isEmpty()) {
      return change;
    }
    NumberPair pair = number(change.number());
    for (String key : ADDRESSES) {
      if (node.has(key)) {
        node.put(key, carried(node.path(key).asString(), pair));
      }
    }
    if (node.path("kind").asString().equals("jump") && node.has("to")) {
      NumberPair to = node.has("toNumber") ? number(node.path("toNumber").asString()) : pair;
      node.put("to", carried(node.path("to").asString(), to));
    }
    if (!pair.there().label().isEmpty()) {
      node.put("number", pair.there().label());
    }
    return ChangesJson.readOne(node);
  }

  private static boolean isOfTheChair(ObjectNode change) {
    return OF_THE_CHAIR.contains(change.path("kind").asString())
        || change.path("errata").asBoolean(false);
  }

  private NumberPair number(String label) throws NotCarried {
    Optional<NumberPair> pair = parts.number(label);
    if (pair.isEmpty()) {
      throw new NotCarried(
          label.isBlank()
              ? "It doesn't say which number it is in."
              : called.begins() + " has no No. " + label + ".");
    }
    return pair.get();
  }

  private String carried(String said, NumberPair pair) throws NotCarried {
    if (!(new Addresses(pair.here()).find(said) instanceof Found.At at)) {
      throw new NotCarried("\"" + said + "\" is no one bar of " + called.from() + ".");
    }
    int slot = at.place().slot();
    String bar = called.barsOf() + "bar " + pair.here().nameAt(slot);
    Optional<Integer> there = pair.there(slot);
    if (there.isEmpty()) {
      throw new NotCarried(
          pair.isUnsure(slot)
              ? "Which bar of " + called.to() + " is " + bar + " is not sure: name one near it."
              : called.begins() + " has no " + bar + ".");
    }
    Addresses target = new Addresses(pair.there());
    Place wanted = new Place(there.get(), at.place().beat());
    String name = pair.there().nameAt(there.get());
    OptionalDouble beat = at.place().beat();
    String words = beat.isPresent() ? name + " beat " + Figures.plain(beat.getAsDouble()) : name;
    for (String way : List.of(said, words)) {
      if (target.find(way) instanceof Found.At found && found.place().equals(wanted)) {
        return way;
      }
    }
    throw new NotCarried(called.begins() + " has no clear name for " + bar + ".");
  }
}
