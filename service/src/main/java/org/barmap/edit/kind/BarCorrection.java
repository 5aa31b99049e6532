package org.barmap.edit.kind;

import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.edit.draft.Aspect;
import org.barmap.map.Bar;
import org.barmap.map.Content;
import org.barmap.map.Enclosure;
import org.barmap.map.RehearsalMark;

/** Corrections of one bar entry's count, content, mark, number and name. */
public sealed interface BarCorrection extends OneBar {

  /** A rest stands for so many bars; a bar of music becomes a multi-bar rest. */
  record SetCount(String bar, int count) implements BarCorrection {

    /** Reads an absent bar as the empty id. */
    public SetCount {
      bar = OneBar.id(bar);
    }

    @Override
    public List<String> problems(Bar b) {
      return OneBar.range("A rest can stand for 1 to 9999 bars", count, 1, 9999);
    }

    @Override
    public Bar change(Bar b) {
      boolean becomesRest = count > 1 && b.content() != Content.BAR_REPEAT;
      return b.toBuilder()
          .count(count)
          .content(becomesRest ? Content.MULTI_REST : b.content())
          .build();
    }

    @Override
    public Set<Aspect> sets() {
      return EnumSet.of(Aspect.COUNT, Aspect.CONTENT);
    }

    @Override
    public String saysOf(String where, Bar b) {
      return "Rest at " + where + ": " + b.count() + " → " + count;
    }
  }

  /** The player does this in it; only a multi-bar rest keeps or takes a count above 1. */
  record SetContent(String bar, Optional<Content> content, Optional<Integer> count)
      implements BarCorrection {

    /** Reads absent keys as empty. */
    public SetContent {
      bar = OneBar.id(bar);
      content = content == null ? Optional.empty() : content;
      count = count == null ? Optional.empty() : count;
    }

    @Override
    public List<String> problems(Bar b) {
      if (content.isEmpty()) {
        return List.of("Say what is in the bar: music, rest, multi-rest or bar-repeat");
      }
      return OneBar.range("A rest can stand for 1 to 9999 bars", count.orElse(1), 1, 9999);
    }

    @Override
    public Bar change(Bar b) {
      Content now = content.orElseThrow();
      int kept = now == Content.MULTI_REST ? b.count() : 1;
      return b.toBuilder().content(now).count(count.orElse(kept)).build();
    }

    @Override
    public Set<Aspect> sets() {
      return EnumSet.of(Aspect.COUNT, Aspect.CONTENT);
    }

    @Override
    public String saysOf(String where, Bar b) {
      return Saying.sentence(where)
          + ": "
          + b.content().word()
          + " → "
          + content.map(Content::word).orElse("?");
    }
  }

  /** A rehearsal mark stands over its start. */
  record SetRehearsal(String bar, String text, Enclosure enclosure) implements BarCorrection {

    /** Reads an absent enclosure as a box. */
    public SetRehearsal {
      bar = OneBar.id(bar);
      text = text == null ? "" : text.strip();
      enclosure = enclosure == null ? Enclosure.BOX : enclosure;
    }

    @Override
    public List<String> problems(Bar b) {
      return OneBar.length("A rehearsal mark has 1 to 40 characters", text, 1, 40);
    }

    @Override
    public Bar change(Bar b) {
      return b.toBuilder().rehearsal(new RehearsalMark(text, enclosure)).build();
    }

    @Override
    public Set<Aspect> sets() {
      return EnumSet.of(Aspect.REHEARSAL);
    }

    @Override
    public String saysOf(String where, Bar b) {
      return "Mark at "
          + where
          + ": "
          + b.rehearsal().map(RehearsalMark::text).orElse("none")
          + " → "
          + text;
    }
  }

  /** No rehearsal mark stands over its start. */
  record RemoveRehearsal(String bar) implements BarCorrection {

    /** Reads an absent bar as the empty id. */
    public RemoveRehearsal {
      bar = OneBar.id(bar);
    }

    @Override
    public List<String> problems(Bar b) {
      return List.of();
    }

    @Override
    public Bar change(Bar b) {
      return b.toBuilder().rehearsal(Optional.empty()).build();
    }

    @Override
    public Set<Aspect> sets() {
      return EnumSet.of(Aspect.REHEARSAL);
    }

    @Override
    public String saysOf(String where, Bar b) {
      return "No mark at " + where;
    }
  }

  /** Its first bar has this number; the bars after it count on from there. */
  record SetNumber(String bar, int number) implements BarCorrection {

    /** Reads an absent bar as the empty id. */
    public SetNumber {
      bar = OneBar.id(bar);
    }

    @Override
    public List<String> problems(Bar b) {
      // no more are told apart when the book is settled
      return OneBar.range("A bar number is 0 to 3999", number, 0, 3999);
    }

    @Override
    public Bar change(Bar b) {
      return b.toBuilder().number(number).build();
    }

    @Override
    public Set<Aspect> sets() {
      return EnumSet.of(Aspect.NUMBER);
    }

    @Override
    public String saysOf(String where, Bar b) {
      return "Number of " + where + ": " + b.number() + " → " + number;
    }
  }

  /** It is called this where a whole number can't say it; an empty label takes the name away. */
  record SetLabel(String bar, String label) implements BarCorrection {
    private static final Pattern INSERTED = Pattern.compile("(\\d{1,5})\\p{Alpha}{1,2}");

    /** Reads an absent label as empty. */
    public SetLabel {
      bar = OneBar.id(bar);
      label = label == null ? "" : label.strip();
    }

    @Override
    public List<String> problems(Bar b) {
      return OneBar.length("A bar's name has up to 20 characters", label, 0, 20);
    }

    /** An inserted bar, 24A, takes the number of the bar it follows; the next one is 25. */
    @Override
    public Bar change(Bar b) {
      Matcher inserted = INSERTED.matcher(label);
      return b.toBuilder()
          .label(label.isEmpty() ? Optional.empty() : Optional.of(label))
          .number(inserted.matches() ? Integer.parseInt(inserted.group(1)) : b.number())
          .build();
    }

    @Override
    public Set<Aspect> sets() {
      return INSERTED.matcher(label).matches()
          ? EnumSet.of(Aspect.LABEL, Aspect.NUMBER)
          : EnumSet.of(Aspect.LABEL);
    }

    @Override
    public String saysOf(String where, Bar b) {
      return label.isEmpty()
          ? "No name for " + where
          : Saying.sentence(where) + " is called " + label;
    }
  }
}
