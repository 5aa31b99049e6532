package org.barmap.reckon;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Evidence;
import org.barmap.map.Evidence.Alternative;
import org.barmap.map.Finding;
import org.barmap.map.Finding.Answer;
import org.barmap.map.SecondReading;
import org.barmap.map.SecondReading.Measure;
import org.barmap.map.Severity;
import org.barmap.reckon.cells.RestEvidence;
import org.barmap.reckon.compare.Aligner;
import org.barmap.reckon.second.SecondAlignment;
import org.barmap.reckon.second.SecondBars;
import org.barmap.reckon.second.SecondMarks;
import org.barmap.reckon.second.SecondNumbers;
import org.barmap.reckon.set.ReckonSettings;
import org.barmap.reckon.set.SecondSettings;
import org.barmap.reckon.solve.Observe;
import org.barmap.reckon.solve.Step;
import org.barmap.reckon.write.FindingWriter;

/**
 * Uses a second reading of the same music as evidence: its bars are aligned to the map's entries,
 * and what it says of rests and numbers is weighed with its own trust.
 */
public final class SecondEvidence {

  private static final SecondSettings.Trust SET = ReckonSettings.STANDARD.second().trust();

  /** The kind of doubt where a second reading's bars can't be laid beside ours. */
  public static final String CODE = "second-other";

  private static final SecondSettings.OtherMusic MUSIC =
      ReckonSettings.STANDARD.second().otherMusic();

  private static final SecondSettings.OtherChair CHAIR =
      ReckonSettings.STANDARD.second().otherChair();

  private static final int NUMBERS = ReckonSettings.STANDARD.cost().bounds().numbers();

  /** How often it is right where it contradicts the page. */
  public static final double TRUST = SET.trust();

  private final double trust;
  private final double unlisted;

  /**
   * Prepares a second reading.
   *
   * @param trust 0 to 1: the probability that it is right where it contradicts the page
   */
  public SecondEvidence(double trust) {
    this(trust, SET.unlisted());
  }

  private SecondEvidence(double trust, double unlisted) {
    this.trust = Math.max(SET.least(), Math.min(1 - SET.least(), trust));
    this.unlisted = unlisted;
  }

  /** A second reading with the trust that was measured. */
  public static SecondEvidence trusted() {
    return new SecondEvidence(TRUST);
  }

  /**
   * What another reader made of the same pages: it errs where the print is hard to read, as we do.
   */
  public static SecondEvidence ofSamePages() {
    return new SecondEvidence(TRUST, SET.unlistedSeen());
  }

  /**
   * Adds what the second reading says to the map's evidence and settles the map with it.
   *
   * @param map as read or corrected
   * @param part the same chair's part in the second reading
   * @param fixed what people set; never changed
   * @return the map with findings wherever the two differ; as it was, with one finding that says
   *     so, when the second reading is of other music
   */
  public BarMap settle(BarMap map, SecondReading.Part part, Fixed fixed) {
    List<Measure> measures = part.measures();
    List<Bar> bars = map.bars();
    if (bars.isEmpty() || measures.isEmpty()) {
      return map;
    }
    List<Aligner.Taken> taken = SecondAlignment.of(map, measures);
    if (taken.isEmpty()) {
      return refused(map);
    }
    int[] said = SecondNumbers.said(bars, measures, taken);
    List<Bar> out = new ArrayList<>();
    for (int i = 0; i < bars.size(); i++) {
      out.add(withEvidence(bars.get(i), measures, taken.get(i), said[i]));
    }
    BarMap settled = new Settler().settle(map.withBars(out), fixed);
    List<Finding> own = new ArrayList<>(SecondBars.differing(settled, measures, taken));
    if (isOfOtherMusic(bars, measures, taken, own)) {
      return refused(map);
    }
    own.addAll(SecondNumbers.differing(settled.bars(), measures, taken, said));
    own.addAll(SecondMarks.differing(bars, measures, taken));
    ofAnotherChair(bars, measures, taken).ifPresent(own::add);
    List<Finding> findings = new ArrayList<>(settled.findings());
    own.stream().filter(f -> !fixed.answered().contains(f.bar().orElse(""))).forEach(findings::add);
    findings.sort(Comparator.comparingDouble(Finding::weight).reversed());
    return settled.withFindings(findings);
  }

  /**
   * Settles with several readings, one after the other: each finds what those before it said as
   * evidence. Where two of them differ from the page at one bar, the later one's doubt stands.
   *
   * @param parts the same chair's part in each of them
   */
  public BarMap settle(BarMap map, List<SecondReading.Part> parts, Fixed fixed) {
    BarMap now = map;
    for (SecondReading.Part part : parts) {
      BarMap with = settle(now, part, fixed);
      Set<Optional<String>> asked =
          with.findings().stream().map(Finding::bar).collect(Collectors.toSet());
      List<Finding> findings = new ArrayList<>(with.findings());
      now.findings().stream()
          .filter(f -> f.code().startsWith("second-") && !asked.contains(f.bar()))
          .forEach(findings::add);
      findings.sort(Comparator.comparingDouble(Finding::weight).reversed());
      now = with.withFindings(findings);
    }
    return now;
  }

  /** So much differs that the two can't be of the same music. */
  private static boolean isOfOtherMusic(
      List<Bar> bars, List<Measure> measures, List<Aligner.Taken> taken, List<Finding> differing) {
    long doubts = differing.stream().filter(f -> f.severity() == Severity.DOUBT).count();
    int pairs = 0;
    int meters = 0;
    int marks = 0;
    for (int i = 0; i < bars.size(); i++) {
      if (taken.get(i).size() > 0) {
        Bar bar = bars.get(i);
        Measure m = measures.get(taken.get(i).from());
        pairs++;
        marks += bar.rehearsal().isPresent() && m.rehearsal().isPresent() ? 1 : 0;
        boolean other =
            bar.meter().isPresent()
                && m.meter().isPresent()
                && !bar.meter().get().sameAs(m.meter().get());
        meters += other ? 1 : 0;
      }
    }
    long drawn = bars.stream().filter(b -> b.rehearsal().isPresent()).count();
    long said = measures.stream().filter(m -> m.rehearsal().isPresent()).count();
    long both = Math.min(drawn, said);
    return doubts > Math.max(MUSIC.doubts(), bars.size() / MUSIC.doubtsShare())
        || (pairs > MUSIC.pairs() && meters > MUSIC.meters() * pairs)
        || (both > MUSIC.marks() && marks < MUSIC.marksShare() * both);
  }

  /** Told where the second reading plays through most of the page's long rests. */
  private static Optional<Finding> ofAnotherChair(
      List<Bar> bars, List<Measure> measures, List<Aligner.Taken> taken) {
    int rests = 0;
    int played = 0;
    for (int i = 0; i < bars.size(); i++) {
      Aligner.Taken t = taken.get(i);
      if (bars.get(i).count() > 1 && bars.get(i).isRest() && t.size() > 1) {
        rests++;
        boolean plays = measures.subList(t.from(), t.to()).stream().noneMatch(Measure::rest);
        played += plays ? 1 : 0;
      }
    }
    return played < CHAIR.played() || CHAIR.part() * played < rests
        ? Optional.empty()
        : Optional.of(
            FindingWriter.told(
                bars.get(0),
                CODE,
                "The second reading plays in "
                    + played
                    + " of "
                    + rests
                    + " long rests: is it another chair's part?"));
  }

  private static BarMap refused(BarMap map) {
    List<Finding> findings = new ArrayList<>(map.findings());
    findings.add(
        FindingWriter.doubt(
            map.bars().get(0),
            CODE,
            "The second reading does not fit these pages: is it of another part, or of another"
                + " show? It was not used.",
            List.of(new Answer("Leave it out", Map.of())),
            map.bars().size()));
    findings.sort(Comparator.comparingDouble(Finding::weight).reversed());
    return map.withFindings(findings);
  }

  /** How a number that a second reading says is weighed against the counting. */
  static Step weighed(int number) {
    return new Observe(
        new int[] {number}, new double[] {SET.number()}, (1 - SET.number()) / NUMBERS);
  }

  private Bar withEvidence(Bar bar, List<Measure> measures, Aligner.Taken taken, int said) {
    Evidence old = bar.evidence().orElse(new Evidence(List.of(), List.of(), 1));
    List<Alternative> counts = old.counts();
    if (bar.isRest() && taken.size() > 0 && (taken.size() > 1 || !counts.isEmpty())) {
      counts = mixed(counts, Integer.toString(taken.size()));
    }
    // what a reading before this one said stays where this one says nothing
    Optional<Evidence.Second> before = old.second();
    int read =
        before
            .map(Evidence.Second::read)
            .orElseGet(
                () ->
                    old.counts().stream()
                        .flatMap(a -> RestEvidence.numeral(a.text()).stream())
                        .findFirst()
                        .orElse(0));
    Optional<Evidence.Second> began = before.filter(b -> said < 0).filter(Evidence.Second::begins);
    String own = taken.size() > 0 ? measures.get(taken.from()).number() : "";
    String called = began.map(Evidence.Second::number).orElse(own);
    int count = taken.size() > 0 ? taken.size() : before.map(Evidence.Second::count).orElse(0);
    Evidence.Second second =
        new Evidence.Second(count, called, read, said >= 0 || began.isPresent());
    return bar.toBuilder().evidence(Optional.of(old.with(counts, second))).build();
  }

  /**
   * Mixes two independent readers' words: what both say becomes nearly sure, what they contradict
   * in is shared out by their trust.
   */
  private List<Alternative> mixed(List<Alternative> page, String second) {
    double others = (1 - trust) / NUMBERS;
    List<Alternative> out = new ArrayList<>();
    boolean listed = false;
    double total = 0;
    for (Alternative a : page) {
      boolean same = a.text().equals(second);
      listed |= same;
      total += a.probability() * (same ? trust : others);
    }
    double open = Math.max(unlisted, 1 - page.stream().mapToDouble(Alternative::probability).sum());
    double added = listed ? 0 : trust * open / SET.unlistedCounts();
    total += added;
    for (Alternative a : page) {
      double p = a.probability() * (a.text().equals(second) ? trust : others) / total;
      out.add(Alternative.rounded(a.text(), p));
    }
    if (!listed) {
      out.add(Alternative.rounded(second, added / total));
    }
    out.sort(Comparator.comparingDouble(Alternative::probability).reversed());
    return List.copyOf(out);
  }
}
