package org.barmap.edit;

import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.kind.AddBarline;
import org.barmap.edit.kind.BarCorrection;
import org.barmap.edit.kind.Correction;
import org.barmap.edit.kind.HeldCorrection;
import org.barmap.edit.kind.MoveBarline;
import org.barmap.edit.kind.MoveRehearsal;
import org.barmap.edit.kind.NumberCorrection;
import org.barmap.edit.kind.PageCorrection;
import org.barmap.edit.kind.RemoveBarline;
import org.barmap.edit.kind.SetBarline;
import org.barmap.edit.kind.SetSilence;
import org.barmap.edit.kind.Side;
import org.barmap.edit.kind.SignCorrection;
import org.barmap.map.Bar;
import org.barmap.map.Barline;
import org.barmap.map.Content;
import org.barmap.map.Enclosure;
import org.barmap.map.Navigation;
import org.barmap.map.Outline;
import org.barmap.map.Placement;
import org.barmap.map.Point;
import org.barmap.map.Word;

/** Draws corrections of every kind, from a seed; some of them do not fit. */
final class RandomCorrections {

  private static final int KINDS = 26;

  private final Random random;

  RandomCorrections(long seed) {
    random = new Random(seed);
  }

  Correction next(Draft draft) {
    List<Bar> bars = draft.map().bars();
    Bar bar = bars.get(random.nextInt(bars.size()));
    String id = random.nextInt(20) == 0 ? "nobody" : bar.id();
    Point in = inside(bar);
    Side side = random.nextBoolean() ? Side.START : Side.END;
    int page = 1 + random.nextInt(5);
    return switch (random.nextInt(KINDS)) {
      case 0 -> new BarCorrection.SetCount(id, random.nextInt(30));
      case 1 -> new BarCorrection.SetContent(id, any(Content.values()), Optional.empty());
      case 2 -> new BarCorrection.SetRehearsal(id, "B", Enclosure.CIRCLE);
      case 3 ->
          bar.number() % 2 == 0
              ? new BarCorrection.RemoveRehearsal(id)
              : new MoveRehearsal(id, bars.get(bars.size() / 2).id());
      case 4 -> new HeldCorrection.SetMeter(id, 1 + random.nextInt(12), 8);
      case 5 -> new HeldCorrection.RemoveMeter(id);
      case 6 -> new BarCorrection.SetNumber(id, random.nextInt(300));
      case 7 -> new BarCorrection.SetLabel(id, bar.number() + "A");
      case 8, 9 -> new AddBarline(bar.page(), bar.system(), in.x(), in.y());
      case 10 -> new MoveBarline(id, side, in.x(), in.y());
      case 11 -> new RemoveBarline(id, side);
      case 12 -> new SetBarline(id, side, any(Barline.values()));
      case 13 -> new SignCorrection.SetEnding(id, List.of(1, 2));
      case 14 -> new SignCorrection.SetSign(id, any(Navigation.values()), random.nextBoolean());
      case 15 -> new SignCorrection.SetTimes(id, Optional.of(3));
      case 16 ->
          new SignCorrection.SetWords(
              id, List.of(new Word("Vamp", Placement.ABOVE, Optional.empty())));
      case 17 -> new NumberCorrection.StartNumber(id, "9" + random.nextInt(9), "New");
      case 18 -> new NumberCorrection.RemoveNumber(id, "");
      case 19 -> new NumberCorrection.AddTacetNumber("end", "T" + random.nextInt(9), "");
      case 20 -> new PageCorrection.VerifyPage(page, random.nextInt(3) > 0);
      case 21 -> {
        double top = random.nextInt(3300);
        Outline place = Outline.box(200, top, 2200, top + 84);
        yield new PageCorrection.AddSystem(page, Optional.of(place));
      }
      case 22 -> new HeldCorrection.SetKey(id, Optional.of(random.nextInt(18) - 9));
      case 23 -> new HeldCorrection.RemoveKey(id);
      case 24 -> new SetSilence(id, Optional.of(side), Optional.of(random.nextInt(10) / 2.0));
      default -> new PageCorrection.RemoveSystem(page, 1 + random.nextInt(5));
    };
  }

  private Point inside(Bar bar) {
    Outline cut = bar.outline().slice(0.1 + 0.8 * random.nextDouble(), 1);
    return cut.leftMiddle();
  }

  private <T> Optional<T> any(T[] values) {
    return Optional.of(values[random.nextInt(values.length)]);
  }
}
