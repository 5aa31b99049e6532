package org.barmap.sign;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.barmap.map.Outline;
import org.barmap.map.Page.HandMark;
import org.barmap.map.Point;
import org.barmap.page.PageImage;
import org.barmap.page.pixel.WorkStep;
import org.barmap.sign.hand.HandWriting;
import org.barmap.sign.hand.Stroke;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.set.HandSettings;
import org.barmap.sign.set.SignSettings;
import org.barmap.staff.FoundSystem;

/**
 * Keeps what players wrote on a page apart from its print: a sign whose strokes are by hand is
 * none, and what it reads is what the hand wrote. Print in a loop stays print.
 */
final class ByHand {

  private static final HandSettings SET = SignSettings.STANDARD.hand();

  /** What lies on or in the lines of a staff, where no strokes are looked for. */
  private static final Set<SignKind> IN_THE_STAFF =
      EnumSet.of(
          SignKind.BARLINE,
          SignKind.MULTI_REST,
          SignKind.BLOCK_REST,
          SignKind.REST,
          SignKind.BAR_REPEAT,
          SignKind.BAR_REPEAT_2,
          SignKind.SLASH,
          SignKind.METER,
          SignKind.KEY);

  /** Signs that are no text. */
  private static final Set<SignKind> DRAWN =
      EnumSet.of(SignKind.SEGNO, SignKind.CODA, SignKind.FERMATA, SignKind.CAESURA);

  private final PageImage page;
  private final HandWriting.Found hand;
  private final String[] texts;

  private ByHand(PageImage page, HandWriting.Found hand) {
    this.page = page;
    this.hand = hand;
    this.texts = new String[hand.marks().size()];
  }

  /** Returns what is by hand on a page. */
  static HandWriting.Found seen(PageImage page, List<FoundSystem> systems) {
    long start = WorkStep.start();
    HandWriting.Found hand = HandWriting.on(page, systems);
    WorkStep.HAND.done(start);
    return hand;
  }

  /** Returns what was read without what is by hand, and that. */
  static SignReader.Found apart(PageImage page, HandWriting.Found hand, SignReader.Found read) {
    long start = WorkStep.start();
    SignReader.Found found = hand.marks().isEmpty() ? read : new ByHand(page, hand).apart(read);
    WorkStep.HAND.done(start);
    return found;
  }

  private SignReader.Found apart(SignReader.Found read) {
    List<ReadSystem> systems = new ArrayList<>();
    for (ReadSystem s : read.systems()) {
      List<Sign> print = s.signs().stream().filter(sign -> !isByHand(sign)).toList();
      systems.add(
          print.size() == s.signs().size()
              ? s
              : new ReadSystem(
                  s.system(),
                  s.length(),
                  s.shape(),
                  print,
                  s.begin(),
                  s.musicBegin(),
                  s.inkEnd(),
                  s.sounds()));
    }
    List<HandMark> marks = new ArrayList<>();
    for (int i = 0; i < texts.length; i++) {
      HandMark m = hand.marks().get(i);
      marks.add(new HandMark(m.outline(), m.kind(), Optional.ofNullable(texts[i]), m.confidence()));
    }
    return new SignReader.Found(systems, read.folio(), marks);
  }

  private boolean isByHand(Sign sign) {
    if (IN_THE_STAFF.contains(sign.kind())) {
      return false;
    }
    double[] box = box(sign.outline());
    for (int i = 0; i < hand.marks().size(); i++) {
      if (covers(hand.strokes().get(i), box)) {
        if (!DRAWN.contains(sign.kind()) && !sign.text().isBlank()) {
          texts[i] = texts[i] == null ? sign.text() : texts[i] + " " + sign.text();
        }
        return true;
      }
    }
    return false;
  }

  /** Tells whether the strokes that lie in a box take up most of its width and height. */
  private static boolean covers(List<Stroke> strokes, double[] box) {
    double width = box[2] - box[0];
    double height = box[1 + 2] - box[1];
    double over = SET.round() * Math.min(width, height);
    double across = 0;
    double top = Double.MAX_VALUE;
    double bottom = -Double.MAX_VALUE;
    double end = -Double.MAX_VALUE;
    for (Stroke s : strokes.stream().sorted((a, b) -> a.left() - b.left()).toList()) {
      boolean inside =
          s.left() > box[0] - over
              && s.right() < box[2] + over
              && s.top() > box[1] - over
              && s.bottom() < box[1 + 2] + over;
      boolean round =
          s.holes() > 0 && s.width() > SET.loop() * width && s.height() > SET.loop() * height;
      if (inside && !round) {
        across += Math.max(0, s.right() - Math.max(end, s.left()));
        end = Math.max(end, s.right());
        top = Math.min(top, s.top());
        bottom = Math.max(bottom, s.bottom());
      }
    }
    return across >= SET.across() * width && bottom - top >= SET.upright() * height;
  }

  /** Left, top, right and bottom of an outline in the working image. */
  private double[] box(Outline o) {
    List<Point> corners =
        List.of(o.topLeft(), o.topRight(), o.bottomRight(), o.bottomLeft()).stream()
            .map(p -> page.toWork(p.x(), p.y()))
            .toList();
    return new double[] {
      corners.stream().mapToDouble(Point::x).min().orElse(0),
      corners.stream().mapToDouble(Point::y).min().orElse(0),
      corners.stream().mapToDouble(Point::x).max().orElse(0),
      corners.stream().mapToDouble(Point::y).max().orElse(0)
    };
  }
}
