package org.barmap.sign;

import java.util.List;
import java.util.stream.IntStream;
import org.barmap.page.pixel.WorkStep;
import org.barmap.sign.kind.RawSign;
import org.barmap.sign.kind.Sound;
import org.barmap.sign.net.ChartHeats;
import org.barmap.sign.net.SignNet;
import org.barmap.sign.rule.Charts;
import org.barmap.sign.rule.LineNumber;
import org.barmap.sign.rule.Overhead;
import org.barmap.sign.rule.Underneath;
import org.barmap.sign.strip.StripImage;

/** A strip with what the network and the looks at its ink found, not yet read. */
record RawStrip(StripImage strip, List<RawSign> signs, SignNet.Found found) {

  /** Looks at the ink of a strip the network has seen. */
  static RawStrip of(StripImage strip, SignNet.Found found) {
    long start = WorkStep.start();
    List<RawSign> signs = Charts.settled(found.signs(), found.charts());
    List<RawSign> all = LineNumber.with(strip, Overhead.withFrames(strip, signs));
    WorkStep.LOOKS.done(start);
    return new RawStrip(strip, all, found);
  }

  /** The same strip, its barlines read by a network that knows pens. */
  RawStrip byPen(SignNet net) {
    return of(strip, net.byPen(strip, found));
  }

  /** The same strips of a page, with what stands under their staves. */
  static List<RawStrip> withUnder(List<RawStrip> page) {
    List<List<RawSign>> signs =
        Underneath.settled(
            page.stream().map(r -> new Underneath.Own(r.strip, r.signs, r.found.under())).toList());
    return IntStream.range(0, page.size())
        .mapToObj(i -> new RawStrip(page.get(i).strip, signs.get(i), page.get(i).found))
        .toList();
  }

  List<Sound> sounds() {
    return found.sounds();
  }

  ChartHeats charts() {
    return found.charts();
  }
}
