package org.barmap.plan.trap;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.mark.PencilMark;
import org.barmap.plan.order.OpenStretch;
import org.barmap.plan.order.Performance;

/**
 * Traps out of the marks that changes need: marks that belong together, a cut and what holds where
 * one lands, are told as one. A mark of a kind not known here is told as it is written.
 */
final class MarkTraps {
  private static final Set<String> LANDING =
      Set.of("meter", "key", "tempo", "beats", "arco", "pizz", "mute", "instrument");
  private static final Set<String> OPEN = Set.of("vamp", "vamp-end", "safety", "safety-end", "cue");
  private static final Set<String> WATCH = Set.of("watch", "cue", "push", "pull", "missed", "text");
  private static final Set<String> MILD =
      Set.of("bow", "extension", "beats", "meter", "key", "tempo", "arco", "pizz", "mute");

  private final Performance performance;
  private final List<PencilMark> marks;
  private final List<PlanFinding> findings;
  private final Set<PencilMark> told = new HashSet<>();

  MarkTraps(Performance performance, List<PencilMark> all, List<PlanFinding> findings) {
    this.performance = performance;
    this.marks = all.stream().filter(m -> m.change().isPresent()).toList();
    this.findings = findings;
  }

  /** Returns the marks that rewrite the count of a rest, by its bar entry. */
  Map<String, PencilMark> counts() {
    return marks.stream()
        .filter(m -> m.mark().equals("rest-count"))
        .collect(Collectors.toMap(PencilMark::bar, m -> m, (a, b) -> a, LinkedHashMap::new));
  }

  void add(TrapList traps) {
    told.addAll(counts().values());
    marks.stream().filter(m -> m.mark().equals("cut")).forEach(m -> cut(traps, m));
    performance.order().open().forEach(o -> open(traps, o));
    marks.stream().filter(m -> m.mark().equals("beats")).forEach(m -> beats(traps, m));
    Map<String, List<PencilMark>> together = new LinkedHashMap<>();
    for (PencilMark mark : marks) {
      boolean closes = mark.mark().equals("land") || mark.mark().endsWith("-end");
      if (!closes && !told.contains(mark)) {
        String key = mark.where() + "|" + kind(mark) + "|" + grave(mark);
        together.computeIfAbsent(key, k -> new ArrayList<>()).add(mark);
      }
    }
    together.values().forEach(m -> plain(traps, m));
  }

  private void cut(TrapList traps, PencilMark cut) {
    String to = cut.sign().replaceFirst("^\\[ cut ?", "");
    String landing = to.replaceFirst("^to ", "").replaceFirst(" \\(beat .*", "");
    List<PencilMark> there =
        marks.stream()
            .filter(m -> m.change().equals(cut.change()) && m.where().equals(landing))
            .filter(m -> LANDING.contains(m.mark()))
            .toList();
    Optional<PencilMark> beat =
        marks.stream()
            .filter(m -> m.mark().equals("beat") && m.change().equals(cut.change()))
            .filter(m -> m.where().equals(cut.where()))
            .findFirst();
    told.add(cut);
    told.addAll(there);
    beat.ifPresent(told::add);
    String text =
        "CUT from bar "
            + cut.where()
            + beat.map(b -> " (" + b.sign() + ")").orElse("")
            + (to.startsWith("to the end") ? " " + to : ", land on " + to.replaceFirst("^to ", ""))
            + (there.isEmpty()
                ? ""
                : ": there "
                    + there.stream().map(PencilMark::sign).collect(Collectors.joining(", ")))
            + left(cut);
    traps.add(cut.bar(), Trap.Kind.FORM, true, text, cut.unsure());
  }

  /** What is left of the two bars where a cut joins, if that is no whole bar. */
  private String left(PencilMark cut) {
    return findings.stream()
        .filter(f -> f.code().equals("cut-odd-bar") && f.change().equals(cut.change()))
        .map(f -> ". " + f.text().replaceFirst("\\.$", ""))
        .findFirst()
        .orElse("");
  }

  /** What the show holds open; what the print holds open stands in the print. */
  private void open(TrapList traps, OpenStretch open) {
    List<PencilMark> own =
        marks.stream()
            .filter(m -> open.change().isPresent() && m.change().equals(open.change()))
            .toList();
    if (own.isEmpty()) {
      return;
    }
    own.stream().filter(m -> OPEN.contains(m.mark())).forEach(told::add);
    boolean counted = own.stream().anyMatch(m -> m.mark().equals("rest-count"));
    if (!counted) {
      String word = open.kind().word();
      traps.add(
          open.first(),
          Trap.Kind.FORM,
          true,
          word.toUpperCase(Locale.ROOT) + open.says().substring(word.length()),
          own.get(0).unsure());
    }
  }

  /** Where it is shown otherwise, and where it goes back. */
  private void beats(TrapList traps, PencilMark first) {
    if (told.contains(first)) {
      return;
    }
    List<PencilMark> all =
        marks.stream()
            .filter(m -> m.mark().equals("beats") && m.change().equals(first.change()))
            .filter(m -> !told.contains(m))
            .toList();
    told.addAll(all);
    String text =
        all.stream()
            .map(m -> "from bar " + m.where() + " " + m.sign())
            .collect(Collectors.joining(", "));
    traps.add(first.bar(), Trap.Kind.STATE, false, text.replaceFirst("^f", "F"), first.unsure());
  }

  private void plain(TrapList traps, List<PencilMark> together) {
    PencilMark first = together.get(0);
    List<String> unsure = together.stream().flatMap(m -> m.unsure().stream()).distinct().toList();
    String signs = together.stream().map(this::sign).distinct().collect(Collectors.joining(", "));
    String bars = together.size() > 1 ? first.where() : first.where() + until(first);
    boolean last = first.mark().equals("link") || first.mark().equals("to-number");
    traps.add(
        first.bar(),
        kind(first),
        grave(first),
        (last ? "After bar " : "Bar ") + bars + ": " + signs,
        unsure);
  }

  /** What a sheet of words says where a pencil draws. */
  private String sign(PencilMark mark) {
    return mark.sign()
        .replaceFirst("^(?:\\[ |\u2016: )", "")
        .replace("glasses (watch)", "watch the director")
        .replaceFirst("^arrow on \\(push\\)", "push")
        .replaceFirst("^wavy line \\(pull back\\)", "pull back")
        .replaceFirst("^(\\d+)X$", "play $1 times");
  }

  private String until(PencilMark first) {
    return marks.stream()
        .filter(m -> m.mark().equals(first.mark() + "-end") && m.change().equals(first.change()))
        .map(m -> m.where().equals(first.where()) ? "" : " to " + m.where())
        .findFirst()
        .orElse("");
  }

  private static Trap.Kind kind(PencilMark mark) {
    return WATCH.contains(mark.mark())
        ? Trap.Kind.WATCH
        : MILD.contains(mark.mark()) || mark.mark().equals("transpose")
            ? Trap.Kind.STATE
            : mark.mark().equals("instrument") ? Trap.Kind.HANDS : Trap.Kind.FORM;
  }

  private static boolean grave(PencilMark mark) {
    return !WATCH.contains(mark.mark())
        && !MILD.contains(mark.mark())
        && !mark.mark().equals("instrument");
  }
}
