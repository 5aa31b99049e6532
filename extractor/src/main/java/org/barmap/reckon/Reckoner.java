package org.barmap.reckon;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Book;
import org.barmap.map.Enclosure;
import org.barmap.map.Page;
import org.barmap.map.RehearsalMark;
import org.barmap.map.StaffSystem;
import org.barmap.reckon.book.About;
import org.barmap.reckon.book.BookModel;
import org.barmap.reckon.book.BookModel.Solved;
import org.barmap.reckon.book.CountingMarks;
import org.barmap.reckon.book.MarkSequence;
import org.barmap.reckon.book.PathReader;
import org.barmap.reckon.book.PathReader.SystemBars;
import org.barmap.reckon.cells.BarLengths;
import org.barmap.reckon.cells.BarSpan;
import org.barmap.reckon.cells.Marks;
import org.barmap.reckon.cells.SystemCells;
import org.barmap.reckon.cost.Calibration;
import org.barmap.reckon.cost.Costs;
import org.barmap.reckon.set.ReckonSettings;
import org.barmap.reckon.set.WriteSettings;
import org.barmap.reckon.write.FindingWriter;
import org.barmap.reckon.write.Item;
import org.barmap.reckon.write.MapWriter;
import org.barmap.reckon.write.MapWriter.Written;
import org.barmap.reckon.write.PageNumbers;
import org.barmap.reckon.write.UnsureSigns;
import org.barmap.sign.ReadPage;
import org.barmap.sign.ReadSystem;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;

/** Settles what was read on all pages of a book into one bar map with findings. */
public final class Reckoner {

  private static final WriteSettings.Lines SET = ReckonSettings.STANDARD.write().lines();

  private final Costs costs;
  private final Calibration calibration;

  /** Creates a reckoner with the default costs. */
  public Reckoner() {
    this(Costs.DEFAULT);
  }

  /** Reckons with these costs and the calibration that was fitted to the shipped ones. */
  public Reckoner(Costs costs) {
    this(costs, Calibration.DEFAULT);
  }

  /** Reckons with these costs, confidences mapped by this calibration. */
  public Reckoner(Costs costs, Calibration calibration) {
    this.costs = costs;
    this.calibration = calibration;
  }

  /**
   * Settles a book.
   *
   * @param book title and part
   * @param pages in the order of the book
   * @return the map, its findings ordered by how many bars an error there would shift
   */
  public BarMap reckon(Book book, List<ReadPage> pages) {
    List<SystemCells> systems = new ArrayList<>();
    List<Integer> pageOf = new ArrayList<>();
    for (ReadPage page : pages) {
      for (ReadSystem system : page.systems()) {
        systems.add(SystemCells.of(system, costs.lines().openEnd(), costs.lines().betweenRests()));
        pageOf.add(page.index());
      }
    }
    Solved solved = new BookModel(BarLengths.along(systems), costs).solve();
    MapWriter writer = new MapWriter(costs, calibration);
    List<Integer> jumps = new ArrayList<>();
    List<Integer> restarts = new ArrayList<>();
    List<SystemBars> settled = new PathReader(solved.lattice(), solved.solution()).read();
    for (int i = 0; i < settled.size(); i++) {
      SystemBars s = settled.get(i);
      if (s.jumps()) {
        jumps.add(writer.bars().size());
      }
      if (s.restarts() && s.cells().signs(SignKind.HEADING).isEmpty()) {
        restarts.add(writer.bars().size());
      }
      writer.system(s, pageOf.get(i));
    }
    writer.settleKeys();
    FindingWriter findings = new FindingWriter(costs, items(writer.bars()));
    places(jumps, restarts, writer, findings);
    List<Bar> bars = marks(writer.bars(), solved.marksCount(), findings);
    Map<Integer, Integer> folios = PageNumbers.believed(pages);
    BarMap map =
        BarMap.of(
            book,
            pages.stream().map(p -> page(p, Optional.ofNullable(folios.get(p.index())))).toList(),
            writer.numbers(),
            bars);
    refused(solved, writer.bars(), findings);
    return map.withFindings(findings.write());
  }

  private List<Item> items(List<Written> bars) {
    List<Item> items = new ArrayList<>();
    for (int i = 0; i < bars.size(); i++) {
      Optional<Written> next =
          i + 1 < bars.size() ? Optional.of(bars.get(i + 1)) : Optional.empty();
      items.add(bars.get(i).item(next, costs));
    }
    return List.copyOf(items);
  }

  private void places(
      List<Integer> jumps, List<Integer> restarts, MapWriter writer, FindingWriter findings) {
    List<Written> bars = writer.bars();
    for (int i : jumps) {
      if (i > 0 && i < bars.size()) {
        findings.missing(i, bars.get(i - 1).bar().nextNumber());
      }
    }
    for (int i : restarts) {
      if (i < bars.size()) {
        Optional<String> first = Optional.of(bars.get(i).bar().id());
        writer.numbers().stream()
            .filter(n -> n.firstBar().equals(first))
            .findFirst()
            .ifPresent(n -> findings.start(i, n.label()));
      }
    }
    for (int i = 0; i < bars.size(); i++) {
      if (bars.get(i).unsureOfContent()) {
        findings.content(i);
      }
      Bar bar = bars.get(i).bar();
      bars.get(i)
          .meter()
          .filter(m -> calibration.meter(m) < costs.doubt())
          .flatMap(m -> bar.meter().map(says -> UnsureSigns.meter(bar, says, m)))
          .ifPresent(findings::add);
    }
  }

  private static Page page(ReadPage page, Optional<Integer> folio) {
    List<StaffSystem> systems = page.systems().stream().map(s -> withPrintedNumber(s)).toList();
    return new Page(
        page.index(), page.source(), page.width(), page.height(), systems, folio, page.byHand());
  }

  private static StaffSystem withPrintedNumber(ReadSystem s) {
    StaffSystem system = s.system();
    Optional<Integer> printed =
        s.signs().stream()
            .filter(x -> x.kind() == SignKind.BAR_NUMBER && x.at() < SET.printed())
            .map(x -> Marks.number(x.text()))
            .filter(n -> n >= 0)
            .findFirst();
    return new StaffSystem(
        system.index(),
        system.outline(),
        system.staffSpace(),
        printed,
        system.confidence(),
        system.midline());
  }

  /** Shows lines that were believed by the reader and refused by the counting. */
  private void refused(Solved solved, List<Written> bars, FindingWriter findings) {
    for (int t = 0; t < solved.lattice().abouts().size(); t++) {
      if (solved.lattice().abouts().get(t) instanceof About.Candidate about
          && !about.lettered()
          && !solved.lattice().systems().get(about.system()).opens(about.line())
          && solved.solution().choices().get(t).shift() == 0) {
        SystemCells.Candidate line =
            solved.lattice().systems().get(about.system()).lines().get(about.line());
        for (int i = 0; line.ink() && costs.believes(line.probability()) && i < bars.size(); i++) {
          BarSpan span = bars.get(i).span();
          if (span.system() == about.system() && span.from() < line.at() && span.to() > line.at()) {
            findings.refused(i, line.sign().outline().leftMiddle());
          }
        }
      }
    }
  }

  /** Settles rehearsal marks: those that say their bar's number, and the others as a sequence. */
  private List<Bar> marks(List<Written> bars, boolean marksCount, FindingWriter findings) {
    List<Bar> out = new ArrayList<>(bars.stream().map(Written::bar).toList());
    List<Integer> counting = new ArrayList<>();
    List<Integer> at = new ArrayList<>();
    List<Boolean> restarted = new ArrayList<>();
    boolean restart = true;
    for (int i = 0; i < bars.size(); i++) {
      restart |= out.get(i).number() <= 1;
      Optional<Sign> mark = bars.get(i).mark();
      if (mark.filter(m -> marksCount && Marks.isNumeric(m)).isPresent()) {
        counting.add(i);
      } else if (mark.isPresent()) {
        at.add(i);
        restarted.add(restart);
        restart = false;
      }
    }
    countingMarks(bars, counting, out);
    List<Sign> marks = at.stream().map(i -> bars.get(i).mark().orElseThrow()).toList();
    List<MarkSequence.Settled> settled = MarkSequence.settle(marks, restarted);
    for (int k = 0; k < at.size(); k++) {
      int i = at.get(k);
      Bar bar = out.get(i);
      String read = marks.get(k).text();
      String text = settled.get(k).text();
      if (!settled.get(k).mark()) {
        out.set(i, bar.toBuilder().rehearsal(Optional.empty()).build());
        continue;
      }
      RehearsalMark said = new RehearsalMark(text, enclosure(bar));
      out.set(i, bar.toBuilder().rehearsal(said).build());
      boolean asked = k > 0 && text.equals(MarkSequence.next(settled.get(k - 1).text()));
      if (!text.equals(read)) {
        findings.mark(i, text, read);
      } else if (!asked && calibration.mark(marks.get(k)) < costs.doubt()) {
        findings.add(UnsureSigns.mark(bar, said));
      }
    }
    return List.copyOf(out);
  }

  /** A mark that says its bar's number is a printed number; the finding about that asks already. */
  private static void countingMarks(List<Written> bars, List<Integer> at, List<Bar> out) {
    List<Sign> marks = at.stream().map(i -> bars.get(i).mark().orElseThrow()).toList();
    List<Boolean> are =
        CountingMarks.areMarks(marks, at.stream().map(i -> out.get(i).number()).toList());
    for (int k = 0; k < at.size(); k++) {
      Bar bar = out.get(at.get(k));
      RehearsalMark said = new RehearsalMark(Integer.toString(bar.number()), enclosure(bar));
      Optional<RehearsalMark> mark = are.get(k) ? Optional.of(said) : Optional.empty();
      out.set(at.get(k), bar.toBuilder().rehearsal(mark).build());
    }
  }

  private static Enclosure enclosure(Bar bar) {
    return bar.rehearsal().map(RehearsalMark::enclosure).orElse(Enclosure.BOX);
  }
}
