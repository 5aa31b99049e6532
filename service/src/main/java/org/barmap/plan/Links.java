package org.barmap.plan;

import java.util.ArrayList;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.map.Severity;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.Question;
import org.barmap.plan.change.Silenced;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.effect.Linked;
import org.barmap.plan.change.effect.Silence;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.term.Link;
import org.barmap.plan.mark.Pencil;
import org.barmap.plan.order.Following;
import org.barmap.plan.order.OrderOfPlay;
import org.barmap.plan.piece.Piece;

/**
 * Tells how each number of the night is followed by the next: what a change says goes first, then
 * the print. A printed word that led into another number than the one that follows now, or that
 * stands in bars left out, is asked about; nothing said is unknown.
 */
final class Links {
  private final Map<WrittenNumber, WrittenNumber> inBook = new IdentityHashMap<>();
  private final Map<WrittenNumber, WrittenNumber> tonight = new IdentityHashMap<>();
  private final Map<WrittenNumber, List<ShowChange>> changes;
  private final List<PlanFinding> findings;

  /**
   * Looks who follows whom.
   *
   * @param written numbers in the order of the book
   * @param ordered numbers in the order of the night
   * @param changes of each number
   * @param findings what is asked is added here
   */
  Links(
      List<WrittenNumber> written,
      List<WrittenNumber> ordered,
      Map<WrittenNumber, List<ShowChange>> changes,
      List<PlanFinding> findings) {
    this.changes = changes;
    this.findings = findings;
    for (int i = 0; i + 1 < written.size(); i++) {
      inBook.put(written.get(i), written.get(i + 1));
    }
    List<WrittenNumber> shown = ordered.stream().filter(n -> !isCut(n)).toList();
    for (int i = 0; i + 1 < shown.size(); i++) {
      tonight.put(shown.get(i), shown.get(i + 1));
    }
  }

  private boolean isCut(WrittenNumber number) {
    return Silenced.by(changes.getOrDefault(number, List.of()))
        .filter(s -> s.why() == Silence.CUT)
        .isPresent();
  }

  /** Returns what follows a number. */
  Following after(OrderOfPlay order) {
    WrittenNumber number = order.number();
    Optional<WrittenNumber> printed = Optional.ofNullable(inBook.get(number));
    Optional<WrittenNumber> next = Optional.ofNullable(tonight.get(number));
    List<PrintedLink> said = PrintedLink.read(order, printed);
    if (isCut(number)) {
      return following(said.isEmpty() ? Link.UNKNOWN : said.get(0).words().link(), next);
    }
    List<ShowChange> set =
        changes.getOrDefault(number, List.of()).stream()
            .filter(c -> c.effects().link().isPresent())
            .toList();
    if (!set.isEmpty()) {
      return changed(number, set, next);
    }
    return said.isEmpty() ? following(Link.UNKNOWN, next) : printed(number, said, printed, next);
  }

  /** Writes what a change says into the book, where the print doesn't say it already. */
  void mark(OrderOfPlay order, Pencil pencil) {
    WrittenNumber number = order.number();
    Optional<ShowChange> last =
        changes.getOrDefault(number, List.of()).stream()
            .filter(c -> c.effects().link().isPresent())
            .reduce((a, b) -> b);
    if (last.isEmpty() || number.bars().isEmpty() || !tonight.containsKey(number)) {
      return;
    }
    Linked linked = last.get().effects().link().orElseThrow();
    boolean printed =
        PrintedLink.read(order, Optional.ofNullable(inBook.get(number))).stream()
            .anyMatch(p -> p.words().link() == linked.how() && !p.leftOut());
    if (printed && linked.seconds().isEmpty() && linked.cue().isEmpty()) {
      return;
    }
    int slot =
        order.steps().isEmpty()
            ? number.slots() - 1
            : lastSlot(order.steps().get(order.steps().size() - 1).piece());
    int at = Math.min(slot, number.slots() - 1);
    Optional<String> id = Optional.of(last.get().meta().id());
    last.get()
        .marking()
        .ifPresent(m -> pencil.add(number, at, number.barAt(at), m.mark(), m.sign(), id));
  }

  private static int lastSlot(Piece piece) {
    return piece.inserted().isPresent() ? piece.slot() - 1 : piece.slot() + piece.count() - 1;
  }

  private static Following following(Link link, Optional<WrittenNumber> next) {
    return new Following(
        link, next.map(WrittenNumber::label), Optional.empty(), Optional.empty(), 0);
  }

  private Following changed(
      WrittenNumber number, List<ShowChange> set, Optional<WrittenNumber> next) {
    ShowChange last = set.get(set.size() - 1);
    Linked linked = last.effects().link().orElseThrow();
    for (ShowChange other : set.subList(0, set.size() - 1)) {
      if (!other.effects().link().equals(last.effects().link())) {
        findings.add(
            PlanFinding.change(
                Severity.DOUBT,
                Optional.empty(),
                "contradiction",
                number.spoken() + " is followed in two ways; the later change holds.",
                last));
        break;
      }
    }
    Optional<String> to = linked.to();
    if (to.isPresent() && next.filter(n -> same(n.label(), to.get())).isEmpty()) {
      ask(
          number,
          "The change lets "
              + number.spoken()
              + " go on to No. "
              + to.get()
              + ", but "
              + spoken(next)
              + " follows tonight. How does it follow?",
          linked.how(),
          next,
          Optional.of(last));
    } else if (next.isEmpty()) {
      findings.add(
          PlanFinding.change(
              Severity.DOUBT,
              Optional.empty(),
              "no-effect",
              "No number follows " + number.spoken() + ", so the link does nothing.",
              last));
    }
    return new Following(
        linked.how(), next.map(WrittenNumber::label), linked.seconds(), linked.cue(), 0);
  }

  private Following printed(
      WrittenNumber number,
      List<PrintedLink> said,
      Optional<WrittenNumber> printed,
      Optional<WrittenNumber> next) {
    PrintedLink first = said.get(0);
    Link link = first.words().link();
    Optional<String> named = said.stream().flatMap(s -> s.words().to().stream()).findFirst();
    boolean another =
        named.isPresent()
            ? next.filter(n -> same(n.label(), named.get())).isEmpty()
            : printed.isPresent() && next.filter(n -> n == printed.get()).isEmpty();
    String into =
        named
            .map(n -> "No. " + n)
            .or(() -> printed.map(WrittenNumber::spoken))
            .orElse("the next number");
    if (another) {
      String now = next.map(n -> n.spoken() + " follows now").orElse("no number follows now");
      ask(
          number,
          number.spoken()
              + " is printed "
              + link.says()
              + " into "
              + into
              + ", but "
              + now
              + ". How does it follow?",
          Link.UNKNOWN,
          next,
          Optional.empty());
      return following(Link.UNKNOWN, next);
    }
    if (said.stream().allMatch(PrintedLink::leftOut)) {
      ask(
          number,
          "\""
              + link.says()
              + "\" stands in bars of "
              + number.spoken()
              + " that are left out."
              + " Does "
              + into
              + " still follow so?",
          link,
          next,
          Optional.empty());
    }
    Link nearest = said.stream().map(s -> s.words().link()).max(Link::compareTo).orElse(link);
    Link farthest = said.stream().map(s -> s.words().link()).min(Link::compareTo).orElse(link);
    if (nearest != farthest && !next.isEmpty()) {
      ask(
          number,
          "The print says "
              + nearest.says()
              + " and "
              + farthest.says()
              + " between "
              + number.spoken()
              + " and "
              + spoken(next)
              + ". Which is it?",
          nearest,
          next,
          Optional.empty());
    }
    return following(nearest, next);
  }

  /** Asks how the next number follows; the plan goes by the first way. */
  private void ask(
      WrittenNumber number,
      String text,
      Link first,
      Optional<WrittenNumber> next,
      Optional<ShowChange> about) {
    List<Question.Reading> readings = new ArrayList<>();
    readings.add(reading(number, first, next));
    for (Link link : Link.values()) {
      if (link != first && link != Link.UNKNOWN && next.isPresent()) {
        readings.add(reading(number, link, next));
      }
    }
    PlanFinding finding =
        new PlanFinding(
            Severity.DOUBT,
            number.bars().stream().reduce((a, b) -> b).map(b -> b.id()),
            "link",
            text,
            about.map(c -> c.meta().id()),
            List.of(),
            Optional.empty());
    findings.add(
        finding.asking(new Question(Question.Topic.LINK, Optional.of(number.label()), readings)));
  }

  private static Question.Reading reading(
      WrittenNumber number, Link link, Optional<WrittenNumber> next) {
    List<ShowChange> instead =
        link == Link.UNKNOWN || next.isEmpty()
            ? List.of()
            : List.of(ShowChange.link(number.label(), link));
    String into =
        link == Link.BREAK || link == Link.UNKNOWN
            ? ""
            : next.map(n -> " into " + n.spoken()).orElse("");
    return new Question.Reading(link.says() + into, Optional.empty(), instead);
  }

  private static String spoken(Optional<WrittenNumber> number) {
    return number.map(WrittenNumber::spoken).orElse("no number");
  }

  private static boolean same(String label, String said) {
    return label.strip().equalsIgnoreCase(said.strip());
  }
}
