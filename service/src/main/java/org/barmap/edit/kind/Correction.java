package org.barmap.edit.kind;

import com.fasterxml.jackson.annotation.JsonSubTypes;
import com.fasterxml.jackson.annotation.JsonTypeInfo;
import java.util.List;
import org.barmap.edit.draft.Draft;

/**
 * What a person says about a map: the intent, as flat JSON with a {@code kind}.
 *
 * <p>Decoding never fails for what a map may or may not hold; {@link #validate} judges that, so
 * that an old history always loads.
 */
@JsonTypeInfo(use = JsonTypeInfo.Id.NAME, property = "kind")
@JsonSubTypes({
  @JsonSubTypes.Type(value = BarCorrection.SetCount.class, name = "set-count"),
  @JsonSubTypes.Type(value = BarCorrection.SetContent.class, name = "set-content"),
  @JsonSubTypes.Type(value = BarCorrection.SetRehearsal.class, name = "set-rehearsal"),
  @JsonSubTypes.Type(value = BarCorrection.RemoveRehearsal.class, name = "remove-rehearsal"),
  @JsonSubTypes.Type(value = MoveRehearsal.class, name = "move-rehearsal"),
  @JsonSubTypes.Type(value = BarCorrection.SetNumber.class, name = "set-number"),
  @JsonSubTypes.Type(value = BarCorrection.SetLabel.class, name = "set-label"),
  @JsonSubTypes.Type(value = SignCorrection.SetEnding.class, name = "set-ending"),
  @JsonSubTypes.Type(value = SignCorrection.SetSign.class, name = "set-sign"),
  @JsonSubTypes.Type(value = SignCorrection.SetTimes.class, name = "set-times"),
  @JsonSubTypes.Type(value = SignCorrection.SetWords.class, name = "set-words"),
  @JsonSubTypes.Type(value = SetSilence.class, name = "set-silence"),
  @JsonSubTypes.Type(value = HeldCorrection.SetMeter.class, name = "set-meter"),
  @JsonSubTypes.Type(value = HeldCorrection.RemoveMeter.class, name = "remove-meter"),
  @JsonSubTypes.Type(value = HeldCorrection.SetKey.class, name = "set-key"),
  @JsonSubTypes.Type(value = HeldCorrection.RemoveKey.class, name = "remove-key"),
  @JsonSubTypes.Type(value = AddBarline.class, name = "add-barline"),
  @JsonSubTypes.Type(value = MoveBarline.class, name = "move-barline"),
  @JsonSubTypes.Type(value = RemoveBarline.class, name = "remove-barline"),
  @JsonSubTypes.Type(value = SetBarline.class, name = "set-barline"),
  @JsonSubTypes.Type(value = NumberCorrection.StartNumber.class, name = "start-number"),
  @JsonSubTypes.Type(value = NumberCorrection.RemoveNumber.class, name = "remove-number"),
  @JsonSubTypes.Type(value = NumberCorrection.AddTacetNumber.class, name = "add-tacet-number"),
  @JsonSubTypes.Type(value = PageCorrection.VerifyPage.class, name = "verify-page"),
  @JsonSubTypes.Type(value = PageCorrection.AddSystem.class, name = "add-system"),
  @JsonSubTypes.Type(value = PageCorrection.RemoveSystem.class, name = "remove-system"),
  @JsonSubTypes.Type(value = PageCorrection.DismissDoubt.class, name = "dismiss-doubt")
})
public sealed interface Correction
    permits OneBar,
        HeldCorrection,
        AddBarline,
        MoveBarline,
        MoveRehearsal,
        RemoveBarline,
        SetBarline,
        NumberCorrection,
        PageCorrection {

  /** Returns what keeps it from being made, one plain sentence each; empty when nothing does. */
  List<String> validate(Draft draft);

  /**
   * Returns the draft after it, bars not yet numbered again; only for drafts that {@link #validate}
   * accepts.
   */
  Draft applyTo(Draft draft);

  /** Returns one line for the history, from the draft before it. */
  String says(Draft draft);
}
