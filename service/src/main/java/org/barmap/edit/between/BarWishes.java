package org.barmap.edit.between;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.function.BiFunction;
import java.util.function.Function;
import org.barmap.edit.kind.BarCorrection;
import org.barmap.edit.kind.Correction;
import org.barmap.edit.kind.HeldCorrection;
import org.barmap.edit.kind.SetBarline;
import org.barmap.edit.kind.SetSilence;
import org.barmap.edit.kind.Side;
import org.barmap.edit.kind.SignCorrection;
import org.barmap.map.Bar;
import org.barmap.map.Content;
import org.barmap.map.Key;
import org.barmap.map.Meter;
import org.barmap.map.Navigation;

/** Which corrections make one bar entry like another one, each of one aspect. */
final class BarWishes {

  /** What makes a bar, which comes first, in one aspect like another one. */
  interface Wish extends BiFunction<Bar, Bar, List<Correction>> {}

  /** One of each aspect, in the order in which they are made. */
  static final List<Wish> ALL =
      List.of(
          BarWishes::content,
          BarWishes::label,
          when(Bar::rehearsal, BarWishes::rehearsal),
          when(Bar::ending, w -> new SignCorrection.SetEnding(w.id(), w.ending())),
          BarWishes::signs,
          when(Bar::times, w -> new SignCorrection.SetTimes(w.id(), w.times())),
          when(Bar::words, w -> new SignCorrection.SetWords(w.id(), w.words())),
          when(Bar::meter, BarWishes::meter),
          when(Bar::key, BarWishes::key),
          when(Bar::silentStart, w -> silence(w, Side.START, w.silentStart())),
          when(Bar::silentEnd, w -> silence(w, Side.END, w.silentEnd())),
          when(
              Bar::startBarline,
              w -> new SetBarline(w.id(), Side.START, Optional.of(w.startBarline()))),
          when(
              Bar::endBarline, w -> new SetBarline(w.id(), Side.END, Optional.of(w.endBarline()))));

  private BarWishes() {}

  private static Wish when(Function<Bar, ?> aspect, Function<Bar, Correction> correction) {
    return (now, wanted) ->
        Objects.equals(aspect.apply(now), aspect.apply(wanted))
            ? List.of()
            : List.of(correction.apply(wanted));
  }

  private static List<Correction> content(Bar now, Bar wanted) {
    if (now.content() == wanted.content() && now.count() == wanted.count()) {
      return List.of();
    }
    boolean rest = wanted.content() == Content.MULTI_REST && now.content() == wanted.content();
    return rest
        ? List.of(new BarCorrection.SetCount(wanted.id(), wanted.count()))
        : List.of(
            new BarCorrection.SetContent(
                wanted.id(),
                Optional.of(wanted.content()),
                wanted.count() == 1 && wanted.content() != Content.MULTI_REST
                    ? Optional.empty()
                    : Optional.of(wanted.count())));
  }

  private static List<Correction> label(Bar now, Bar wanted) {
    return now.label().equals(wanted.label())
        ? List.of()
        : List.of(new BarCorrection.SetLabel(wanted.id(), wanted.label().orElse("")));
  }

  private static Correction rehearsal(Bar wanted) {
    return wanted
        .rehearsal()
        .<Correction>map(r -> new BarCorrection.SetRehearsal(wanted.id(), r.text(), r.enclosure()))
        .orElseGet(() -> new BarCorrection.RemoveRehearsal(wanted.id()));
  }

  private static List<Correction> signs(Bar now, Bar wanted) {
    List<Correction> signs = new ArrayList<>();
    for (Navigation sign : Navigation.values()) {
      if (now.has(sign) != wanted.has(sign)) {
        signs.add(new SignCorrection.SetSign(wanted.id(), Optional.of(sign), wanted.has(sign)));
      }
    }
    return signs;
  }

  private static Correction meter(Bar wanted) {
    return wanted
        .meter()
        .filter(Meter::printed)
        .<Correction>map(m -> new HeldCorrection.SetMeter(wanted.id(), m.beats(), m.unit()))
        .orElseGet(() -> new HeldCorrection.RemoveMeter(wanted.id()));
  }

  private static Correction key(Bar wanted) {
    return wanted
        .key()
        .filter(Key::printed)
        .<Correction>map(k -> new HeldCorrection.SetKey(wanted.id(), Optional.of(k.fifths())))
        .orElseGet(() -> new HeldCorrection.RemoveKey(wanted.id()));
  }

  private static Correction silence(Bar wanted, Side side, Optional<Double> beats) {
    return new SetSilence(wanted.id(), Optional.of(side), beats);
  }
}
