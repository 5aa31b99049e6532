package org.barmap.reckon.write;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Bar;
import org.barmap.map.BarBuilder;
import org.barmap.map.Barline;
import org.barmap.map.Content;
import org.barmap.map.Enclosure;
import org.barmap.map.Evidence;
import org.barmap.map.Key;
import org.barmap.map.Meter;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Origin;
import org.barmap.map.RehearsalMark;
import org.barmap.reckon.book.PathReader.SystemBars;
import org.barmap.reckon.cells.Attributes;
import org.barmap.reckon.cells.BarSpan;
import org.barmap.reckon.cells.Meters;
import org.barmap.reckon.cells.RestEvidence;
import org.barmap.reckon.cells.SystemCells;
import org.barmap.reckon.cost.Calibration;
import org.barmap.reckon.cost.Costs;
import org.barmap.reckon.set.ReckonSettings;
import org.barmap.reckon.set.WriteSettings;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;

/** Writes settled bars with all their attributes. */
public final class MapWriter {

  private static final WriteSettings.Contents SET = ReckonSettings.STANDARD.write().contents();

  /** A bar of the map with what it was made from. */
  public record Written(
      Bar bar, BarSpan span, Optional<Sign> mark, Optional<Sign> meter, double restSign) {

    /** A whole-bar rest was read, or hardly not. */
    public boolean unsureOfContent() {
      return span.rest().isEmpty() && restSign > SET.noRest() && restSign < SET.sureRest();
    }

    /** The same for writing findings; {@code next} is the bar after it on the line. */
    public Item item(Optional<Written> next, Costs costs) {
      boolean guessed = span.end().isEmpty() && next.map(n -> n.span().inferred()).orElse(false);
      boolean supposed =
          span.end().filter(e -> e.to() <= e.from() && !e.text().equals("none")).isPresent();
      Optional<Sign> ink = span.end().filter(e -> e.to() > e.from());
      boolean unbelieved = ink.filter(e -> !costs.believes(e.probability())).isPresent();
      // an open end is a bar's end unless the book says otherwise; asking each time would be idle
      double least = ink.isPresent() ? costs.doubt() : SET.openEnd();
      boolean doubtful = span.end().isPresent() && (span.endProbability() < least || unbelieved);
      return new Item(
          bar,
          span.rest().isPresent(),
          true,
          span.rest().flatMap(r -> r.counts().keySet().stream().findFirst()),
          span.countChoice(),
          span.otherCount(),
          span.anchors().stream().map(Sign::text).toList(),
          guessed || supposed,
          doubtful);
    }
  }

  /** Where a musical number starts; -1 for a tacet one without bars. */
  private record Start(Headings heading, int firstBar) {}

  private final List<Written> written = new ArrayList<>();
  private final List<Start> starts = new ArrayList<>();
  private final List<KeySequence.Slot> keys = new ArrayList<>();
  private Optional<Meter> meter = Optional.empty();
  private final Costs costs;

  private final Calibration calibration;

  /** Writes with these costs and this calibration. */
  public MapWriter(Costs costs, Calibration calibration) {
    this.costs = costs;
    this.calibration = calibration;
  }

  /** Writes the next system; {@code page} and {@code index} are those of the map. */
  public void system(SystemBars system, int page) {
    int before = written.size();
    List<BarSpan> bars = system.bars();
    Attributes attributes = new Attributes(system.cells(), bars);
    for (int i = 0; i < bars.size(); i++) {
      written.add(bar(system, attributes, i, page));
    }
    boolean begins = written.size() > before && (before == 0 || system.restarts());
    if (begins) {
      beginNumber(system, before);
    }
    if (written.size() > before) {
      keys(attributes, before, bars.size(), begins);
    }
  }

  private void keys(Attributes attributes, int firstBar, int bars, boolean begins) {
    KeySequence.Where start = begins ? KeySequence.Where.NUMBER : KeySequence.Where.LINE;
    keys.add(new KeySequence.Slot(start, firstBar, attributes.key(0)));
    for (int i = 1; i < bars; i++) {
      Optional<Sign> drawn = attributes.key(i);
      if (drawn.isPresent()) {
        keys.add(new KeySequence.Slot(KeySequence.Where.CHANGE, firstBar + i, drawn));
      }
    }
    Optional<Sign> courtesy = attributes.courtesyKey();
    if (courtesy.isPresent()) {
      keys.add(new KeySequence.Slot(KeySequence.Where.CHANGE, firstBar + bars, courtesy));
    }
  }

  /** Gives every bar its key; called once, after the last system. */
  public void settleKeys() {
    List<Optional<Key>> settled = KeySequence.settle(keys, written.size());
    for (int i = 0; i < written.size(); i++) {
      Written w = written.get(i);
      Bar bar = w.bar().toBuilder().key(settled.get(i)).build();
      written.set(i, new Written(bar, w.span(), w.mark(), w.meter(), w.restSign()));
    }
  }

  private static List<Sign> headings(SystemBars system) {
    return system.cells().signs(SignKind.HEADING).stream()
        .filter(s -> s.probability() >= SET.heading())
        .sorted(java.util.Comparator.comparingDouble(Sign::top))
        .toList();
  }

  private void beginNumber(SystemBars system, int firstBar) {
    List<Headings> read = headings(system).stream().map(s -> Headings.of(s.text())).toList();
    Headings.withoutBars(read).forEach(h -> starts.add(new Start(h, -1)));
    starts.add(new Start(Headings.ofTheBars(read), firstBar));
  }

  private Written bar(SystemBars system, Attributes attributes, int i, int page) {
    BarSpan span = system.bars().get(i);
    SystemCells cells = system.cells();
    int systemIndex = cells.source().system().index();
    String id = "b" + (written.size() + 1);
    BarBuilder b =
        Bar.builder(
                id,
                page,
                systemIndex,
                cells.source().shape().between(span.from(), span.to()).rounded())
            .number(span.number())
            .label(span.lettered())
            .count(span.count())
            .startBarline(startBarline(system, i))
            .endBarline(endBarline(span))
            .ending(ending(attributes, i))
            .signs(attributes.navigation(i))
            .times(attributes.times(i))
            .words(attributes.words(i))
            .origin(span.inferred() ? Origin.INFERRED : Origin.READ);
    Content content = content(attributes, i, span);
    b.content(content);
    Optional<Sign> printed = attributes.meter(i);
    meter = printed.flatMap(Meters::of).or(() -> meter.map(m -> m.withPrinted(false)));
    b.meter(meter);
    if (content == Content.MUSIC) {
      silence(cells, span, b);
    }
    meter = meter.map(m -> m.withPrinted(false));
    Optional<Sign> mark = attributes.rehearsal(i);
    mark.ifPresent(
        m -> b.rehearsal(new RehearsalMark(m.text(), m.enclosure().orElse(Enclosure.BOX))));
    b.evidence(Optional.of(evidence(span, i > 0, printed, mark)));
    b.confidence(calibration.of(raw(span, printed, mark)));
    return new Written(b.build(), span, mark, printed, attributes.restProbability(i));
  }

  /** The endings of a bar; under a bracket that goes on, those of the bar before. */
  private List<Integer> ending(Attributes attributes, int i) {
    if (!attributes.endingGoesOn(i)) {
      return attributes.ending(i);
    }
    return written.isEmpty() ? List.of() : written.get(written.size() - 1).bar().ending();
  }

  private double raw(BarSpan span, Optional<Sign> meter, Optional<Sign> mark) {
    double p = span.lines() * span.countChoice() * (span.inferred() ? SET.inferred() : 1);
    p *= meter.map(calibration::meter).orElse(1.0);
    p *= mark.map(calibration::mark).orElse(1.0);
    return Math.max(0, Math.min(1, p));
  }

  private static Content content(Attributes attributes, int i, BarSpan span) {
    if (span.rest().isPresent()) {
      return span.count() > 1 ? Content.MULTI_REST : Content.REST;
    }
    if (attributes.repeatsBarBefore(i)) {
      return Content.BAR_REPEAT;
    }
    return attributes.rests(i) ? Content.REST : Content.MUSIC;
  }

  private void silence(SystemCells cells, BarSpan span, BarBuilder b) {
    if (meter.isPresent()) {
      double from = span.from() > cells.begin() ? span.from() : cells.beatsFrom(0);
      Silence own = Silence.in(cells.source().sounds(), from, span.to(), meter.orElseThrow());
      b.silentStart(own.start()).silentEnd(own.end());
    }
  }

  private static Barline startBarline(SystemBars system, int i) {
    if (i == 0) {
      return system.startRepeat() ? Barline.REPEAT_START : Barline.NONE;
    }
    return endBarline(system.bars().get(i - 1));
  }

  private static Barline endBarline(BarSpan span) {
    String word = span.end().map(Sign::text).orElse("single");
    for (Barline type : Barline.values()) {
      if (type.word().equals(word)) {
        return type;
      }
    }
    return Barline.SINGLE;
  }

  private Evidence evidence(
      BarSpan span, boolean inside, Optional<Sign> meter, Optional<Sign> mark) {
    List<Evidence.Alternative> counts =
        Attributes.alternatives(span.rest().map(RestEvidence::readings).orElse(List.of()));
    Optional<Sign> number = span.anchors().stream().findFirst();
    return new Evidence(
        counts,
        alternatives(number),
        alternatives(mark),
        alternatives(meter),
        Evidence.rounded(span.rest().map(costs::rest).orElse(1.0)),
        Evidence.rounded(number.map(n -> costs.number(n, inside)).orElse(1.0)),
        Optional.empty(),
        Evidence.rounded(span.endProbability()));
  }

  private static List<Evidence.Alternative> alternatives(Optional<Sign> sign) {
    return Attributes.alternatives(sign.map(Sign::readings).orElse(List.of()));
  }

  /** Returns the written bars in reading order. */
  public List<Written> bars() {
    return written;
  }

  /** What numbers are called; one without a heading follows the one before it. */
  private List<String> labels() {
    List<String> out = new ArrayList<>();
    int before = 0;
    for (Start s : starts) {
      String label = s.heading.label().isEmpty() ? Integer.toString(before + 1) : s.heading.label();
      String figures = label.replaceAll("[^0-9]", "");
      before = figures.isEmpty() ? before + 1 : Integer.parseInt(figures);
      out.add(label);
    }
    return out;
  }

  /** The musical numbers, each ending where the next one with bars begins. */
  public List<MusicalNumber> numbers() {
    List<MusicalNumber> out = new ArrayList<>();
    List<String> labels = labels();
    int end = written.size() - 1;
    for (int i = starts.size() - 1; i >= 0; i--) {
      Start s = starts.get(i);
      String label = labels.get(i);
      boolean silent = s.firstBar < 0;
      out.add(
          0,
          new MusicalNumber(
              label,
              s.heading.title(),
              silent ? Optional.empty() : Optional.of(written.get(s.firstBar).bar().id()),
              silent ? Optional.empty() : Optional.of(written.get(end).bar().id()),
              silent));
      end = silent ? end : s.firstBar - 1;
    }
    return List.copyOf(out);
  }
}
