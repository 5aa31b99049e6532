package org.barmap.sign;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Page.HandMark;
import org.barmap.page.PageImage;
import org.barmap.page.pixel.Spread;
import org.barmap.page.pixel.WorkStep;
import org.barmap.sign.hand.HandWriting;
import org.barmap.sign.kind.Folio;
import org.barmap.sign.kind.RawSign;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.kind.Sound;
import org.barmap.sign.net.SignNet;
import org.barmap.sign.rule.BlockRests;
import org.barmap.sign.rule.Charts;
import org.barmap.sign.rule.CueRest;
import org.barmap.sign.rule.Heads;
import org.barmap.sign.rule.JoinedStaves;
import org.barmap.sign.rule.KindByText;
import org.barmap.sign.rule.LetteredNumber;
import org.barmap.sign.rule.LineNumber;
import org.barmap.sign.rule.MarkOrNumber;
import org.barmap.sign.rule.NoteInk;
import org.barmap.sign.rule.Overhead;
import org.barmap.sign.rule.PenLines;
import org.barmap.sign.rule.SecondLook;
import org.barmap.sign.rule.StripSign;
import org.barmap.sign.set.InkSettings;
import org.barmap.sign.set.SignSettings;
import org.barmap.sign.strip.StaffInk;
import org.barmap.sign.strip.StaffStrip;
import org.barmap.sign.strip.StripImage;
import org.barmap.staff.FoundSystem;
import org.barmap.staff.Staff;

/**
 * Finds and reads the signs of straightened staves.
 *
 * <p>Safe for use by several threads at once; holds native memory until closed.
 */
public final class SignReader implements AutoCloseable {

  private static final InkSettings.Facing SET = SignSettings.STANDARD.ink().facing();

  private final SignNet signs;
  private final TextReader text;

  private SignReader(SignNet signs, TextReader text) {
    this.signs = signs;
    this.text = text;
  }

  /** Opens the models shipped with the extractor. */
  public static SignReader open() {
    SignNet signs = new SignNet();
    try {
      return new SignReader(signs, new TextReader());
    } catch (RuntimeException e) {
      signs.close();
      throw e;
    }
  }

  /**
   * What was read on a page.
   *
   * @param systems from top to bottom
   * @param folio the page's own number, where one was seen
   * @param byHand what players wrote on it; none of it is a sign
   */
  public record Found(List<ReadSystem> systems, Optional<Folio> folio, List<HandMark> byHand) {

    /** Nothing was. */
    public static final Found NONE = new Found(List.of(), Optional.empty(), List.of());

    /** Takes defensive copies. */
    public Found {
      systems = List.copyOf(systems);
      byHand = List.copyOf(byHand);
    }
  }

  /**
   * Reads a page.
   *
   * @param page the image the systems were found on
   * @param found from top to bottom
   * @return the systems with their signs, in the same order; it doesn't need the image any more,
   *     but {@link ReadSystem#shape} uses the systems
   */
  public Found read(PageImage page, List<FoundSystem> found) {
    List<Staff> staves = found.stream().flatMap(system -> system.staves().stream()).toList();
    Looked looked = looked(page, found, staves);
    List<OwnStaff> lines = byPen(looked.lines);
    List<RawStrip> raw = RawStrip.withUnder(lines.stream().map(OwnStaff::raw).toList());
    HeadingReader.Settled lined = signs(raw);
    List<List<Sign>> signs = lined.signs();
    List<FoundSystem> systems = new ArrayList<>();
    List<Integer> firsts = new ArrayList<>();
    int next = 0;
    for (FoundSystem system : found) {
      firsts.add(next);
      int end = next + system.staves().size();
      systems.add(system.with(lines.subList(next, end).stream().map(OwnStaff::staff).toList()));
      next = end;
    }
    List<WholeSystem> joined =
        Spread.map(
            systems.size(),
            i -> {
              int first = firsts.get(i);
              int end = first + systems.get(i).staves().size();
              return joined(systems.get(i), raw.subList(first, end), signs.subList(first, end));
            });
    long start = WorkStep.start();
    List<List<Sign>> signsOf = joined.stream().map(WholeSystem::signs).toList();
    List<List<Sign>> settled = LetteredNumber.settle(MarkOrNumber.settle(signsOf));
    List<ReadSystem> read = new ArrayList<>();
    for (int i = 0; i < systems.size(); i++) {
      FoundSystem system = systems.get(i);
      WholeSystem own = joined.get(i);
      read.add(
          new ReadSystem(
              system.toStaffSystem(),
              system.length(),
              (from, to) -> system.outlineBetween(from, to).rounded(),
              within(settled.get(i), own.begin, own.linesEnd),
              own.begin,
              own.musicBegin,
              own.inkEnd,
              own.sounds));
    }
    WorkStep.LOOKS.done(start);
    Optional<Folio> folio = lined.folio().or(() -> MarkOrNumber.folio(signsOf));
    return ByHand.apart(page, looked.hand, new Found(read, folio, List.of()));
  }

  /** The signs of all staves of a system, and where its lines and its ink begin and end. */
  private record WholeSystem(
      List<Sign> signs,
      List<Sound> sounds,
      double begin,
      double musicBegin,
      double inkEnd,
      double linesEnd) {}

  private static WholeSystem joined(
      FoundSystem system, List<RawStrip> raw, List<List<Sign>> signs) {
    long start = WorkStep.start();
    List<StripImage> strips = raw.stream().map(RawStrip::strip).toList();
    double begin = strips.stream().mapToDouble(StaffInk::begin).min().orElse(0);
    WholeSystem joined =
        new WholeSystem(
            JoinedStaves.join(overFirst(system, signs)),
            // who is silent on one staff may play on the other
            raw.size() == 1 ? raw.get(0).sounds() : List.of(),
            begin,
            musicBegin(strips, begin, signs),
            inkEnd(strips, signs),
            strips.stream().mapToDouble(StaffInk::linesEnd).max().orElse(system.length()));
    WorkStep.LOOKS.done(start);
    return joined;
  }

  /** A staff without what was followed into the facing page, and what was found on its strip. */
  private record OwnStaff(Staff staff, RawStrip raw) {}

  /** The same staves; where a pen drew their barlines, as a network reads them that knows pens. */
  private List<OwnStaff> byPen(List<OwnStaff> lines) {
    List<PenLines.Own> own =
        lines.stream().map(l -> new PenLines.Own(l.raw.strip(), l.raw.found().signs())).toList();
    if (!PenLines.onPage(own)) {
      return lines;
    }
    return Spread.map(
        lines.size(), i -> new OwnStaff(lines.get(i).staff, lines.get(i).raw.byPen(signs)));
  }

  /** The staves of a page, and what is by hand on it. */
  private record Looked(List<OwnStaff> lines, HandWriting.Found hand) {}

  /**
   * What is by hand takes less time than a strip: who has looked for it helps with the strips. What
   * belongs to a strip is done on one thread: strips needn't wait for each other.
   */
  private Looked looked(PageImage page, List<FoundSystem> systems, List<Staff> staves) {
    List<Looked> both =
        Spread.map(
            2,
            task ->
                task == 0
                    ? new Looked(
                        Spread.map(staves.size(), i -> line(page, staves, i)),
                        HandWriting.Found.NONE)
                    : new Looked(List.of(), ByHand.seen(page, systems)));
    return new Looked(both.get(0).lines, both.get(1).hand);
  }

  private OwnStaff line(PageImage page, List<Staff> staves, int i) {
    long start = WorkStep.start();
    Optional<Staff> above = i == 0 ? Optional.empty() : Optional.of(staves.get(i - 1));
    Staff staff = staves.get(i);
    StripImage strip = new StaffStrip(page, staff, Overhead.room(staff, above));
    double begin = StaffInk.begin(strip);
    if (begin > SET.begin()) {
      staff = staff.from(begin);
      strip = new StaffStrip(page, staff, Overhead.room(staff, above));
    }
    WorkStep.STRIPS.done(start);
    return new OwnStaff(staff, RawStrip.of(strip, signs.find(strip)));
  }

  /** How far something is written on a system; a courtesy key after the last barline isn't. */
  private static double inkEnd(List<StripImage> strips, List<List<Sign>> signs) {
    double end = 0;
    for (int i = 0; i < strips.size(); i++) {
      end = Math.max(end, NoteInk.end(strips.get(i), signs.get(i)));
    }
    return end;
  }

  private static double musicBegin(List<StripImage> strips, double begin, List<List<Sign>> signs) {
    double first = Double.MAX_VALUE;
    for (int i = 0; i < strips.size(); i++) {
      first = Math.min(first, NoteInk.begin(strips.get(i), begin, signs.get(i)));
    }
    return first;
  }

  /** Gives all signs of a system positions along its first staff. */
  private static List<List<Sign>> overFirst(FoundSystem system, List<List<Sign>> staves) {
    List<List<Sign>> all = new ArrayList<>();
    for (int i = 0; i < staves.size(); i++) {
      int staff = i;
      all.add(
          staves.get(i).stream()
              .map(s -> s.at(system.alongFirst(staff, s.from()), system.alongFirst(staff, s.to())))
              .toList());
    }
    return all;
  }

  /** Leaves out what belongs to the facing page, beyond the gutter. */
  private static List<Sign> within(List<Sign> signs, double begin, double end) {
    return signs.stream()
        .filter(
            s ->
                s.kind() == SignKind.BARLINE
                    ? s.at() > begin - SET.lineBefore() && s.at() < end + SET.lineAfter()
                    : s.at() < end + SET.after())
        .toList();
  }

  /** Returns the signs of each strip, in the order given, each list ordered along the staff. */
  List<List<Sign>> read(List<? extends StripImage> strips) {
    return signs(
            Spread.map(strips.size(), i -> RawStrip.of(strips.get(i), signs.find(strips.get(i)))))
        .signs();
  }

  private HeadingReader.Settled signs(List<RawStrip> strips) {
    List<TextReader.Placed> tasks = new ArrayList<>();
    List<Integer> firsts = new ArrayList<>();
    for (RawStrip raw : strips) {
      firsts.add(tasks.size());
      raw.signs().forEach(s -> tasks.add(new TextReader.Placed(raw.strip(), s)));
    }
    List<KindByText.Text> readings = text.read(tasks);
    List<HeadingReader.StripSigns> all =
        Spread.map(
            strips.size(),
            n -> {
              int first = firsts.get(n);
              int end = first + strips.get(n).signs().size();
              return found(strips.get(n), readings.subList(first, end));
            });
    return HeadingReader.settle(text, rested(all, strips));
  }

  /** What a page's heads say about its rests. */
  private static List<HeadingReader.StripSigns> rested(
      List<HeadingReader.StripSigns> all, List<RawStrip> strips) {
    long start = WorkStep.start();
    Heads heads =
        Heads.of(all.stream().map(f -> new Heads.ReadStrip(f.strip(), f.signs())).toList());
    WorkStep.LOOKS.done(start);
    return Spread.map(
        all.size(),
        i -> {
          long begun = WorkStep.start();
          HeadingReader.StripSigns f = all.get(i);
          List<Sign> signs =
              CueRest.withRests(
                  f.strip(),
                  f.signs(),
                  heads,
                  Charts.silence(strips.get(i).charts(), strips.get(i).sounds()));
          WorkStep.LOOKS.done(begun);
          return new HeadingReader.StripSigns(f.strip(), f.raw(), signs);
        });
  }

  private static HeadingReader.StripSigns found(RawStrip raw, List<KindByText.Text> readings) {
    long start = WorkStep.start();
    StripImage strip = raw.strip();
    List<Sign> found = new ArrayList<>();
    for (int i = 0; i < readings.size(); i++) {
      KindByText.Text said = readings.get(i);
      RawSign own = raw.signs().get(i).as(said.kind());
      List<Reading> read = SecondLook.cut(strip, own, said.readings());
      if (Overhead.isBelieved(own, read)
          && KindByText.isBelieved(own, read)
          && LineNumber.isBelieved(own, read)
          && SecondLook.isInked(strip, own)) {
        found.add(StripSign.of(strip, SecondLook.thickBar(strip, own), read));
      }
    }
    found = BlockRests.summed(strip, SecondLook.support(found));
    found.sort(java.util.Comparator.comparingDouble(Sign::at));
    WorkStep.LOOKS.done(start);
    return new HeadingReader.StripSigns(strip, raw.signs(), found);
  }

  @Override
  public void close() {
    signs.close();
    text.close();
  }
}
