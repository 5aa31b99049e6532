package org.barmap.staff;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.DoubleStream;
import org.barmap.page.PageImage;
import org.opencv.core.Rect;

/**
 * Finds staves of one line or two, as parts for untuned percussion have them: a long level line
 * crossed by barlines of one height, alone, or two ({@link TwoLines}).
 *
 * <p>Ruled lines, hairpins, brackets of endings, lines under words and frames have no strokes that
 * reach as far above them as below and end there; the lines of other staves have neighbours.
 */
final class LoneStaves {

  private static final LoneSettings.Single SET = LoneSettings.STANDARD.staff();
  private static final LoneSettings.Stroke STROKE = LoneSettings.STANDARD.stroke();

  private final PageImage page;
  private final Pixels pixels;
  private final LineBlocks lines;
  private final List<Staff> others;

  private LoneStaves(PageImage page, Pixels pixels, LineBlocks lines, List<Staff> others) {
    this.page = page;
    this.pixels = pixels;
    this.lines = lines;
    this.others = others;
  }

  /** A line with the strokes across it that are as high as the page's barlines. */
  private record Crossed(LoneLine line, List<LoneStroke> strokes) {}

  /** Returns the staves of one line of a page besides its others. */
  static List<Candidate> find(
      PageImage page, Pixels pixels, StaffFinder.Lines lines, List<Candidate> others) {
    double space =
        page.staffSpace() > 0 ? page.staffSpace() : LoneSettings.STANDARD.follow().space();
    if (page.gray().rows() < SET.length() * space) {
      return List.of();
    }
    LineBlocks blocks = lines.by(space).noWeaker(LoneSettings.STANDARD.follow().strength());
    List<Staff> staves = others.stream().map(Candidate::staff).toList();
    return new LoneStaves(page, pixels, blocks, staves).find();
  }

  private List<Candidate> find() {
    List<LoneLine> own =
        LoneLine.all(lines, pixels).stream()
            .filter(l -> others.stream().noneMatch(s -> isOf(l, s)))
            .toList();
    List<TwoLines> twins = TwoLines.among(own, pixels, lines);
    List<Candidate> staves = new ArrayList<>(twins(twins));
    List<LoneLine> left =
        staves.isEmpty()
            ? own
            : own.stream().filter(l -> twins.stream().noneMatch(t -> t.has(l))).toList();
    staves.addAll(singles(left));
    return staves;
  }

  /** The staves of two lines; they tell their space themselves. */
  private List<Candidate> twins(List<TwoLines> twins) {
    if (twins.isEmpty() || others.isEmpty() && twins.size() < SET.lines()) {
      return List.of();
    }
    double space = TwoLines.space(twins, this::spaceOf);
    boolean other =
        others.stream()
            .mapToDouble(Staff::usualSpace)
            .anyMatch(s -> !near(s, space, SET.sameSpace() * s));
    if (space <= 0 || other) {
      return List.of();
    }
    return twins.stream()
        .filter(t -> t.between().length() >= SET.shortest() * space)
        .map(t -> twin(t, space))
        .toList();
  }

  private Candidate twin(TwoLines t, double space) {
    List<LoneStroke> strokes = LoneStroke.whole(pixels, t.between(), t.strokes());
    return candidate(t.staffLine(space), strokes, space, t.lines(space), t.half());
  }

  private List<Candidate> singles(List<LoneLine> own) {
    List<Crossed> crossed = crossed(own);
    double half = usualHalf(crossed.stream().flatMap(c -> c.strokes.stream()).toList());
    if (half <= 0) {
      return List.of();
    }
    double slack = STROKE.alike() * half + STROKE.slack();
    List<Crossed> barred =
        crossed.stream()
            .map(
                c ->
                    new Crossed(
                        c.line,
                        c.strokes.stream().filter(s -> near(s.half(), half, slack)).toList()))
            .toList();
    double space = half / ratio(barred, half);
    boolean other =
        others.stream()
            .mapToDouble(Staff::usualSpace)
            .anyMatch(s -> !near(s, space, SET.sameSpace() * s));
    return other ? List.of() : staves(barred, space, half);
  }

  private List<Crossed> crossed(List<LoneLine> own) {
    List<Crossed> crossed = new ArrayList<>();
    for (LoneLine followed : own) {
      LoneLine line = followed.measured(pixels);
      List<LoneStroke> strokes =
          LoneStroke.across(pixels, line).stream().filter(s -> !isClef(line, s)).toList();
      crossed.add(new Crossed(line, strokes));
    }
    return crossed;
  }

  /** What the heads on a staff of two lines, and its clef, say about its space, in pixels. */
  private DoubleStream spaceOf(TwoLines twin) {
    double most = LoneSettings.STANDARD.twin().head() * twin.apart();
    double[] clef = clefs(twin.between()).toArray();
    return DoubleStream.concat(
        DoubleStream.concat(blobs(twin.upper(), most), blobs(twin.lower(), most)),
        clef.length < 2 ? DoubleStream.empty() : DoubleStream.of(clef)); // one alone is an edge
  }

  private static boolean near(double a, double b, double slack) {
    return Math.abs(a - b) <= slack;
  }

  /** Tells whether a stroke stands where a clef does. */
  static boolean isClef(LoneLine line, LoneStroke stroke) {
    return stroke.to() < line.left() + SET.clefTo() * stroke.half();
  }

  /** A line of another staff, or one that lies too near to it. */
  private static boolean isOf(LoneLine line, Staff staff) {
    double x = Math.max(line.left(), Math.min(line.right(), (staff.left() + staff.right()) / 2));
    return line.left() < staff.right()
        && line.right() > staff.left()
        && Math.abs(line.at(x) - staff.middleAt(x)) < SET.apart() * staff.spaceAt(x);
  }

  /** The height that most strokes of the page have; 0 where too few have one. */
  private static double usualHalf(List<LoneStroke> strokes) {
    double[] all = strokes.stream().mapToDouble(LoneStroke::half).sorted().toArray();
    double usual = 0;
    int most = SET.bars() - 1;
    int end = 0;
    for (int i = 0; i < all.length; i++) {
      while (end < all.length && all[end] <= all[i] * (1 + 2 * STROKE.alike())) {
        end++;
      }
      if (end - i > most) {
        most = end - i;
        usual = all[i + (end - i) / 2];
      }
    }
    return usual;
  }

  /** How many spaces half a barline is: other staves of the page tell the space, or note heads. */
  private double ratio(List<Crossed> barred, double half) {
    double[] spaces =
        others.isEmpty()
            ? barred.stream()
                .filter(c -> !c.strokes.isEmpty())
                .flatMapToDouble(c -> heads(c.line, half))
                .sorted()
                .toArray()
            : others.stream().mapToDouble(Staff::usualSpace).sorted().toArray();
    boolean few = others.isEmpty() && spaces.length < SET.heads();
    double space = few ? half : spaces[spaces.length / 2];
    return SET.halves().stream()
        .min(Comparator.comparingDouble(r -> Math.abs(half / r - space)))
        .orElse(1.0);
  }

  /** Returns the staff spaces that what looks like note heads and clefs on a line speaks for. */
  private DoubleStream heads(LoneLine line, double half) {
    return DoubleStream.concat(blobs(line, SET.headMost() * half), clefs(line));
  }

  private DoubleStream blobs(LoneLine line, double most) {
    return LoneStroke.blobs(pixels, line, most).stream()
        .filter(b -> b.wide() >= SET.headWide() * b.half())
        .filter(b -> b.wide() <= SET.headWidest() * b.half())
        .filter(b -> Math.abs(b.up() - b.down()) <= SET.headUneven() * b.half())
        .mapToDouble(b -> b.half() / SET.headHalf());
  }

  /** Returns half the heights of the bars of what looks like a clef on a line. */
  private DoubleStream clefs(LoneLine line) {
    return LoneStroke.groups(pixels, line).stream()
        .filter(s -> isClef(line, s))
        .filter(s -> s.wide() >= SET.clefWide() * s.half())
        .filter(s -> s.wide() <= STROKE.wide() * s.half())
        .mapToDouble(LoneStroke::half);
  }

  private List<Candidate> staves(List<Crossed> barred, double space, double half) {
    List<Crossed> good = new ArrayList<>();
    for (Crossed c : barred) {
      if (c.line.length() >= SET.shortest() * space
          && c.line.covered() >= SET.covered()
          && isAlone(c.line, space)) {
        good.add(c);
      }
    }
    List<Crossed> sure =
        good.stream()
            .filter(c -> c.line.length() >= SET.length() * space)
            .filter(c -> c.strokes.size() >= SET.bars() || c.strokes.size() > 1 && ends(c, space))
            .toList();
    if (sure.isEmpty() || others.isEmpty() && sure.size() < SET.lines()) {
      return List.of();
    }
    List<Candidate> staves = new ArrayList<>();
    for (Crossed c : good) {
      boolean below =
          sure.stream().anyMatch(s -> near(s.line.left(), c.line.left(), SET.margin() * space));
      boolean shown = c.strokes.size() > 1 || ends(c, space) || clefs(c.line).count() > 1;
      if (sure.contains(c) || below && shown) {
        Crossed whole = toItsEnds(c, sure, space, half);
        List<LoneStroke> strokes = LoneStroke.whole(pixels, whole.line, whole.strokes);
        staves.add(candidate(whole.line, strokes, space, TwoLines.Own.ONE, half));
      }
    }
    return staves;
  }

  /**
   * Goes on as far as the nearest longer line does where dashes of it are left: all lines of a page
   * begin at one margin, and most end at the other (common practice).
   */
  private Crossed toItsEnds(Crossed c, List<Crossed> sure, double space, double half) {
    double far = SET.end() * space;
    LoneLine line = c.line;
    LoneLine longer =
        sure.stream()
            .map(Crossed::line)
            .filter(l -> l.left() < line.left() - far || l.right() > line.right() + far)
            .min(
                Comparator.comparingDouble(l -> Math.abs(l.at(line.left()) - line.at(line.left()))))
            .orElse(line);
    LoneLine whole = line.along(longer, pixels, SET.dashes());
    if (whole == line) {
      return c;
    }
    double slack = STROKE.alike() * half + STROKE.slack();
    return new Crossed(
        whole,
        LoneStroke.across(pixels, whole).stream()
            .filter(s -> !isClef(whole, s) && near(s.half(), half, slack))
            .toList());
  }

  private static boolean ends(Crossed c, double space) {
    return !c.strokes.isEmpty()
        && c.line.right() - c.strokes.get(c.strokes.size() - 1).to() < SET.end() * space;
  }

  /** Tells whether no lines run along on both sides of a line. */
  private boolean isAlone(LoneLine line, double space) {
    double from = SET.nearest() * space;
    double to = SET.near() * space;
    return !lines.isBeside(line, -to, -from, SET.parallel())
        || !lines.isBeside(line, from, to, SET.parallel());
  }

  private Candidate candidate(
      LoneLine line, List<LoneStroke> strokes, double space, TwoLines.Own own, double half) {
    double[] spaces = new double[line.middle().length];
    java.util.Arrays.fill(spaces, space);
    Staff bare = new Staff(line.left(), line.right(), line.middle(), spaces, 0);
    List<FewLines.Bar> bars = new ArrayList<>();
    for (LoneStroke s : strokes) {
      double from = bare.alongAt(s.from() - 1);
      if (from > LoneSettings.STANDARD.drawn().clef()) {
        bars.add(new FewLines.Bar(from, bare.alongAt(s.to() + 2)));
      }
    }
    int px = FewLines.Held.PX;
    int width = Strip.width(bare, px);
    byte[] gray = Strip.part(page, bare, px, new Rect(0, 0, width, Strip.HEIGHT * px));
    // On two lines they hang from the upper one, which is where five have them (common practice).
    List<FewLines.Bar> rests =
        own.equals(TwoLines.Own.ONE) ? FewLines.rests(gray, width) : List.of();
    FewLines few = new FewLines(own, half / space, bars, rests, FewLines.Held.of(gray, width, own));
    return new Candidate(bare.with(few), line.covered(), line.covered(), 0, 0, 0);
  }

  /** Returns how far the outline of a staff of one line reaches to each side, staff spaces. */
  static Optional<Double> half(Staff staff) {
    return staff
        .few()
        .filter(f -> f.lines().equals(TwoLines.Own.ONE))
        .map(f -> Math.max(SET.top(), Math.min(SET.bottom(), f.half())));
  }
}
