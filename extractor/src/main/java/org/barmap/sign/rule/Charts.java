package org.barmap.sign.rule;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.barmap.sign.kind.ChartView;
import org.barmap.sign.kind.ChartView.Along;
import org.barmap.sign.kind.RawSign;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.kind.Sound;
import org.barmap.sign.set.ChartSettings;
import org.barmap.sign.set.SignSettings;
import org.barmap.sign.strip.StripImage;

/**
 * Sets right what the sign network takes slashes, chord symbols, sung words, dynamics and counters
 * for: it was trained before it knew them.
 */
public final class Charts {

  private static final ChartSettings SET = SignSettings.STANDARD.chart();

  private final ChartView charts;
  private final List<RawSign> found;

  private Charts(ChartView charts, List<RawSign> found) {
    this.charts = charts;
    this.found = found;
  }

  /** Returns a strip's signs as the head for charts has them. */
  public static List<RawSign> settled(List<RawSign> found, ChartView charts) {
    return new Charts(charts, found).settled();
  }

  private List<RawSign> settled() {
    List<RawSign> all = new ArrayList<>();
    for (RawSign s : found) {
      settled(s).ifPresent(all::add);
    }
    for (RawSign box : charts.boxes()) {
      if (box.probability() >= SET.rests().there() && isRest(box)) {
        all.add(box);
      } else if (box.kind() == SignKind.SLASH && box.probability() >= SET.texts().there()) {
        all.add(box);
      }
    }
    return all;
  }

  private Optional<RawSign> settled(RawSign s) {
    return switch (s.kind()) {
      case BAR_REPEAT -> isSlash(s) ? Optional.empty() : Optional.of(s);
      case BARLINE -> isStroke(s) ? Optional.empty() : Optional.of(s);
      case REHEARSAL, BAR_NUMBER, COUNT, WORD -> text(s);
      default -> Optional.of(s);
    };
  }

  /** A bar-repeat sign has dots; where a slash is seen and hardly any such sign, it is a slash. */
  private boolean isSlash(RawSign s) {
    ChartSettings.Repeats repeats = SET.repeats();
    double from = s.centre() - repeats.beside();
    double to = s.centre() + repeats.beside();
    double sign = charts.at(SignKind.BAR_REPEAT, s);
    double slash = charts.at(SignKind.SLASH, s);
    double same = charts.mean(Along.SAME, from, to);
    double share = same < repeats.nowhere() && isOneOfSeveral(s) ? repeats.half() : repeats.share();
    return (sign < repeats.sign() || sign < share * slash)
        && same < repeats.same()
        && Math.max(slash, charts.mean(Along.SLASHED, from, to)) > repeats.slash();
  }

  /** Common practice: a bar has one bar-repeat sign, in its middle, or a slash for every beat. */
  private boolean isOneOfSeveral(RawSign s) {
    return Stream.concat(found.stream(), charts.boxes().stream())
        .filter(o -> o.kind() == SignKind.BAR_REPEAT || o.kind() == SignKind.SLASH)
        .filter(o -> o.probability() >= SET.repeats().slash() && o.inside(s) == 0)
        .anyMatch(o -> noLineBetween(s.centre(), o.centre()));
  }

  private boolean noLineBetween(double a, double b) {
    return found.stream()
        .filter(l -> l.kind() == SignKind.BARLINE && !isStroke(l))
        .noneMatch(l -> l.centre() > Math.min(a, b) && l.centre() < Math.max(a, b));
  }

  /** The stroke of a slash, or the stem on it. */
  private boolean isStroke(RawSign s) {
    ChartSettings.Lines lines = SET.lines();
    double x = s.centre();
    return charts.most(Along.LINE, x - lines.beside(), x + lines.beside()) < lines.line()
        && (charts.mean(Along.SLASHED, x - lines.around(), x + lines.around()) > lines.slash()
            || charts.boxes().stream()
                .anyMatch(
                    b ->
                        b.kind() == SignKind.SLASH
                            && b.probability() > lines.slash()
                            && b.x0() < x + lines.beside()
                            && b.x1() > x - lines.beside()));
  }

  /** What a text is: the likeliest of what stands there, or what it was taken for. */
  private Optional<RawSign> text(RawSign s) {
    ChartSettings.Texts texts = SET.texts();
    Optional<RawSign> other =
        charts.boxes().stream()
            .filter(b -> isChart(b.kind()) && b.probability() >= texts.there())
            .filter(b -> b.kind() != SignKind.COUNTER || isCounted(s))
            .filter(b -> b.overlap(s) >= texts.same() || b.inside(s) >= texts.piece())
            .max(Comparator.comparingDouble(RawSign::probability));
    double own = texts.surer() * charts.at(s.kind(), s);
    if (other.filter(b -> b.probability() > own).isEmpty()) {
      return Optional.of(s);
    }
    SignKind kind = other.orElse(s).kind();
    return kind == SignKind.COUNTER
        ? Optional.empty()
        : Optional.of(s.as(kind).likely(other.orElse(s).probability()));
  }

  /** A lone long note looks much like a rest; cues, being worth nothing, are not long. */
  private static boolean isLong(Sound note) {
    return note.likely().filter(quarters -> quarters >= SET.rests().longNote()).isPresent();
  }

  /** Tells whether slashes or bar-repeat signs, which are counted, stand under a place. */
  private boolean isCounted(RawSign s) {
    double from = s.centre() - SET.lines().around();
    double to = s.centre() + SET.lines().around();
    return Math.max(charts.mean(Along.SAME, from, to), charts.mean(Along.SLASHED, from, to))
        > SET.texts().counted();
  }

  private static boolean isChart(SignKind kind) {
    return switch (kind) {
      case CHORD, LYRIC, DYNAMIC, COUNTER -> true;
      default -> false;
    };
  }

  /** A whole-bar rest in a silent bar that was not found yet. */
  private boolean isRest(RawSign box) {
    ChartSettings.Rests rests = SET.rests();
    return box.kind() == SignKind.REST
        && charts.mean(Along.SILENT, box.centre() - rests.beside(), box.centre() + rests.beside())
            >= rests.silent()
        && found.stream()
            .noneMatch(
                s ->
                    NoteInk.isRest(s.kind())
                        && (s.inside(box) > 0
                            || Math.abs(s.centre() - box.centre()) < rests.beside()));
  }

  /** Returns which bars of a strip are silent for the player, whatever stands in them. */
  public static CueRest.SilentBars silence(ChartView charts, List<Sound> sounds) {
    double inset = SET.rests().inset();
    return (from, to, named) -> {
      double left = StripImage.column(from) + inset;
      double right = StripImage.column(to) - inset;
      List<Sound> notes =
          sounds.stream().filter(n -> n.note() && n.at() > from && n.at() < to).toList();
      double least = named ? SET.rests().named() : SET.rests().wholly();
      return right > left
          && charts.mean(Along.SILENT, left, right) >= least
          && !(notes.size() == 1 && isLong(notes.get(0)));
    };
  }
}
