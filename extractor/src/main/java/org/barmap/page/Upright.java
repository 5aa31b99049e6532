package org.barmap.page;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.UnaryOperator;
import org.barmap.map.Finding;
import org.barmap.map.Point;
import org.barmap.map.Severity;
import org.barmap.map.Stage;
import org.barmap.page.level.Light;
import org.barmap.page.level.LineField;
import org.barmap.page.level.Opening;
import org.barmap.page.level.PageRegion;
import org.barmap.page.level.Screen;
import org.barmap.page.level.Sharpness;
import org.barmap.page.level.View;
import org.barmap.page.level.WorkSize;
import org.barmap.page.pixel.Homography;
import org.barmap.page.pixel.Mats;
import org.barmap.page.pixel.PageSettings;
import org.barmap.page.pixel.Shrunk;
import org.barmap.page.pixel.Warp;
import org.barmap.page.pixel.WorkStep;
import org.opencv.core.Core;
import org.opencv.core.Mat;

/** Makes upright page images from the picture in a file. */
final class Upright {

  private static final PageSettings.Judging SET = PageSettings.STANDARD.judging();

  private Upright() {}

  /** Returns the pages in a picture, one, or two for an opening; frees the picture. */
  static List<PageResult> pages(String source, int index, Mat picture) {
    try (Mats scope = new Mats()) {
      scope.keep(picture);
      long start = WorkStep.start();
      Screen.smooth(picture);
      WorkStep.LIGHT.done(start);
      start = WorkStep.start();
      Shrunk shrunk =
          Shrunk.of(picture, Math.sqrt(picture.total() / SET.pixels()), WorkStep.SHARPNESS, scope);
      Mat judged = shrunk.image();
      Homography small = shrunk.map();
      boolean hopeless = Sharpness.isHopeless(judged);
      WorkStep.SHARPNESS.done(start);
      start = WorkStep.start();
      Optional<PageRegion> region = PageRegion.find(judged);
      WorkStep.OUTLINE.done(start);
      start = WorkStep.start();
      View view = View.of(judged, region);
      LineField lines = view.lines();
      UnaryOperator<View> leveled = v -> v;
      if (lines.strength() < SET.surelyLevel()) {
        View turned = view.quarter();
        LineField across = turned.lines();
        // Barlines of staves of one line stand one below the other, too, but not five together.
        if (across.weight() > SET.turned() * lines.weight() && turned.showsStaves(across)) {
          leveled = View::quarter;
          lines = across;
        }
      }
      if (Math.abs(lines.slope()) > SET.level()) {
        double angle = -Math.atan(lines.slope());
        UnaryOperator<View> before = leveled;
        leveled = v -> before.apply(v).turned(angle);
      }
      view = leveled.apply(view);
      lines = view.checked(lines);
      Opening opening = view.opening(lines.space());
      Optional<Finding> cut = FacingPages.finding(source, opening);
      if (region.isPresent() && opening.parts().size() == 1) {
        // The sheet found may be one page of an opening, its gutter taken for an edge, even the
        // page that is cut off.
        View all = leveled.apply(View.of(judged, Optional.empty()));
        Opening beyond = all.opening(lines.space());
        boolean other = beyond.isCutAt(region.get().middle());
        opening = beyond.whole() > 1 || other ? beyond : opening;
        cut = FacingPages.finding(source, beyond);
      }
      WorkStep.LEVEL.done(start);
      List<PageResult> pages = new ArrayList<>();
      if (opening.parts().size() == 1) {
        PageResult page = make(source, index, picture, small, view, lines.space(), hopeless);
        return List.of(cut.map(page::and).orElse(page));
      }
      for (Opening.Part part : opening.parts()) {
        if (part.whole()) {
          PageResult page = half(source, index, picture, small, part.view(), lines, hopeless);
          pages.add(cut.map(page::and).orElse(page));
        }
      }
      return pages;
    }
  }

  /** Makes one page of several in a picture; each may lie its own way. */
  private static PageResult half(
      String source,
      int index,
      Mat picture,
      Homography small,
      View half,
      LineField lines,
      boolean hopeless) {
    LineField own = half.lines();
    boolean like = Math.abs(own.space() - lines.space()) < SET.alike() * lines.space();
    View level =
        like && Math.abs(own.slope()) > SET.level() ? half.turned(-Math.atan(own.slope())) : half;
    double space = like ? own.space() : lines.space();
    return make(source, index, picture, small, level, space, hopeless);
  }

  private static PageResult make(
      String source,
      int index,
      Mat picture,
      Homography small,
      View view,
      double space,
      boolean hopeless) {
    WorkSize size = WorkSize.of(picture, space / small.a()[0]);
    long start = WorkStep.start();
    try (Mats scope = new Mats()) {
      Mat scaled = size.apply(picture, scope);
      Homography toScaled =
          Homography.scale(
              scaled.cols() / (double) picture.cols(), scaled.rows() / (double) picture.rows());
      Homography toWork = toScaled;
      Mat work = scaled;
      if (!view.isWhole()) {
        // One step from the scaled picture to the upright page.
        double grow = scaled.cols() / (double) picture.cols() / small.a()[0];
        Homography warp =
            toScaled.inverse().then(small).then(view.map()).then(Homography.scale(grow, grow));
        work =
            Warp.draw(
                scaled,
                warp,
                (int) Math.ceil(view.width() * grow),
                (int) Math.ceil(view.height() * grow),
                Core.BORDER_CONSTANT,
                WorkStep.UPRIGHT,
                scope);
        toWork = toScaled.then(warp);
      }
      WorkStep.UPRIGHT.done(start);
      start = WorkStep.start();
      Light.flatten(
          work, size.space() > 0 ? size.space() : PageSettings.STANDARD.size().usualSpace());
      List<Point> hull = view.hull();
      if (!hull.isEmpty()) {
        Homography back = small.inverse().then(toWork);
        Light.whitenOutside(work, hull.stream().map(p -> back.apply(p.x(), p.y())).toList());
      }
      WorkStep.LIGHT.done(start);
      start = WorkStep.start();
      List<Finding> findings = quality(source, work, size.space(), hopeless);
      WorkStep.SHARPNESS.done(start);
      PageImage page =
          new PageImage(
              source,
              index,
              picture.cols(),
              picture.rows(),
              scope.release(work),
              toWork,
              size.space());
      return new PageResult.Loaded(page, findings);
    }
  }

  /** Says what is wrong with a page as it came out: nothing on it, or too blurred. */
  private static List<Finding> quality(String source, Mat work, double space, boolean hopeless) {
    if (hopeless && Sharpness.isEmpty(work)) {
      return List.of(
          Finding.ofPage(
              Severity.DOUBT,
              Stage.PAGE,
              0,
              "empty",
              source + ": nothing is printed on this page, or too faintly to be seen."));
    }
    if (hopeless || Sharpness.isBlurred(work, space)) {
      return List.of(
          Finding.ofPage(
              Severity.ERROR,
              Stage.PAGE,
              0,
              "blurred",
              source
                  + ": the picture is too blurred to read; photograph the page again, camera"
                  + " still and focused on the notes."));
    }
    return List.of();
  }
}
