package org.barmap.plan.change.kind;

import com.fasterxml.jackson.annotation.JsonTypeName;
import java.util.List;
import java.util.Optional;
import org.barmap.plan.change.effect.Effects;
import org.barmap.plan.change.effect.Marking;
import org.barmap.plan.change.effect.Stretch;
import org.barmap.plan.change.say.Meta;

/**
 * The numbers named are played in this order, in the places where they stand in the book; the
 * others stay.
 */
@JsonTypeName("order")
public record Reorder(Meta meta, List<String> numbers) implements ShowChange {
  /** Takes a defensive copy. */
  public Reorder {
    numbers = List.copyOf(numbers);
  }

  @Override
  public String number() {
    return "";
  }

  @Override
  public Optional<Stretch> where() {
    return Optional.empty();
  }

  @Override
  public Effects effects() {
    return Effects.order(numbers);
  }

  @Override
  public Optional<Marking> marking() {
    return Optional.empty();
  }

  @Override
  public String says() {
    return "order of numbers: " + String.join(", ", numbers);
  }
}
