package org.barmap.exchange.musicxml;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;
import org.barmap.map.Barline;
import org.barmap.map.Navigation;
import org.barmap.map.SecondReading.Measure;
import org.barmap.map.SecondReading.Part;

/**
 * Gives every part of a full score what a score writes once for all of them, over its top staff:
 * rehearsal marks, endings, repeats and jumps.
 *
 * <p>A part takes only the kinds that it has none of, from the first part that has them and as many
 * bars.
 */
public final class SharedSigns {

  private static final Set<Navigation> JUMPS =
      EnumSet.of(
          Navigation.SEGNO,
          Navigation.CODA,
          Navigation.TO_CODA,
          Navigation.FINE,
          Navigation.DA_CAPO,
          Navigation.DAL_SEGNO);

  private SharedSigns() {}

  /** What a score writes once. */
  private enum Kind {
    MARK(m -> m.rehearsal().isPresent()),
    ENDING(m -> !m.ending().isEmpty()),
    REPEAT(SharedSigns::repeats),
    JUMP(m -> m.signs().stream().anyMatch(JUMPS::contains));

    private final Predicate<Measure> in;

    Kind(Predicate<Measure> in) {
      this.in = in;
    }
  }

  /** The parts that have something of a kind. */
  private record Having(Map<Kind, List<Part>> parts) {
    static Having of(List<Part> all) {
      Map<Kind, List<Part>> parts = new EnumMap<>(Kind.class);
      for (Kind kind : Kind.values()) {
        parts.put(kind, all.stream().filter(p -> p.measures().stream().anyMatch(kind.in)).toList());
      }
      return new Having(parts);
    }

    /** The part itself where it has something of a kind, or where no other has. */
    List<Measure> of(Kind kind, Part own) {
      List<Part> having = parts.getOrDefault(kind, List.of());
      return having.stream().anyMatch(p -> p.id().equals(own.id()))
          ? own.measures()
          : having.stream()
              .map(Part::measures)
              .filter(m -> m.size() == own.measures().size())
              .findFirst()
              .orElse(own.measures());
    }
  }

  /** Returns the parts with what is written once for all. */
  public static List<Part> over(List<Part> parts) {
    Having having = Having.of(parts);
    return parts.stream().map(p -> completed(p, having)).toList();
  }

  private static Part completed(Part part, Having having) {
    List<Measure> own = part.measures();
    List<Measure> marks = having.of(Kind.MARK, part);
    List<Measure> endings = having.of(Kind.ENDING, part);
    List<Measure> repeats = having.of(Kind.REPEAT, part);
    List<Measure> jumps = having.of(Kind.JUMP, part);
    if (marks == own && endings == own && repeats == own && jumps == own) {
      return part;
    }
    List<Measure> out = new ArrayList<>();
    for (int i = 0; i < own.size(); i++) {
      Measure m = own.get(i);
      boolean opens = repeats.get(i).start() == Barline.REPEAT_START;
      boolean closes = closes(repeats.get(i));
      out.add(
          new Measure(
              m.number(),
              m.implicit(),
              m.meter(),
              m.key(),
              m.rest(),
              m.multiRest(),
              opens ? Barline.REPEAT_START : m.start(),
              closes ? repeats.get(i).end() : m.end(),
              closes ? repeats.get(i).times() : m.times(),
              marks.get(i).rehearsal(),
              endings.get(i).ending(),
              both(m, jumps.get(i))));
    }
    return new Part(part.id(), part.name(), out);
  }

  private static List<Navigation> both(Measure own, Measure jumps) {
    Set<Navigation> signs = EnumSet.noneOf(Navigation.class);
    signs.addAll(own.signs());
    jumps.signs().stream().filter(JUMPS::contains).forEach(signs::add);
    return List.copyOf(signs);
  }

  private static boolean repeats(Measure m) {
    return m.start() == Barline.REPEAT_START || closes(m);
  }

  private static boolean closes(Measure m) {
    return m.end().endsRepeat();
  }
}
