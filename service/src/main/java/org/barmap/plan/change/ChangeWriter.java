package org.barmap.plan.change;

import org.barmap.plan.change.kind.ShowChange;
import tools.jackson.core.JsonGenerator;
import tools.jackson.databind.SerializationContext;
import tools.jackson.databind.ValueSerializer;

/** Writes a change inside another document as it stands in {@code changes/1}. */
final class ChangeWriter extends ValueSerializer<ShowChange> {

  @Override
  public void serialize(ShowChange change, JsonGenerator out, SerializationContext context) {
    out.writeTree(ChangesJson.tree(change));
  }

  @Override
  public void serializeWithType(
      ShowChange change,
      JsonGenerator out,
      SerializationContext context,
      tools.jackson.databind.jsontype.TypeSerializer type) {
    serialize(change, out, context);
  }
}
