package org.barmap.plan.change.say;

import java.util.Optional;

/**
 * What every change carries besides what it does.
 *
 * @param id unique among the changes of a show
 * @param on a change that is switched off stays in the list and does nothing
 * @param when the moment it was made, ISO 8601
 * @param who who made it
 * @param note a free remark
 * @param version the version of the show it holds in: "matinee"; empty for every one
 * @param since the first day it holds, ISO 8601; empty where it holds from the beginning
 * @param until the last day it holds, ISO 8601; empty where it doesn't end
 * @param replaces the id of an earlier change that doesn't count where this one holds
 */
public record Meta(
    String id,
    boolean on,
    Optional<String> when,
    Optional<String> who,
    Optional<String> note,
    Optional<String> version,
    Optional<String> since,
    Optional<String> until,
    Optional<String> replaces) {

  /** Makes the particulars of a change that holds in every version and doesn't end. */
  public Meta(
      String id, boolean on, Optional<String> when, Optional<String> who, Optional<String> note) {
    this(
        id,
        on,
        when,
        who,
        note,
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty());
  }

  /** Returns the particulars of a change that has only an id and is switched on. */
  public static Meta of(String id) {
    return new Meta(id, true, Optional.empty(), Optional.empty(), Optional.empty());
  }

  /** Returns in which version and in which days it holds, behind commas; empty for always. */
  public String holds() {
    return version.map(v -> ", version " + Saying.one(v) + " only").orElse("")
        + since.map(d -> ", from " + d + " on").orElse("")
        + until.map(d -> ", until " + d).orElse("");
  }

  /** Whether it holds in every version, on every day. */
  public boolean always() {
    return version.isEmpty() && since.isEmpty() && until.isEmpty();
  }

  /** Returns the same particulars, switched on or off. */
  public Meta switched(boolean nowOn) {
    return new Meta(id, nowOn, when, who, note, version, since, until, replaces);
  }

  /** Returns the same particulars with another note. */
  public Meta noted(Optional<String> words) {
    return new Meta(id, on, when, who, words, version, since, until, replaces);
  }

  /** Returns the same particulars, holding in one version of the show. */
  public Meta version(Optional<String> name) {
    return new Meta(id, on, when, who, note, name, since, until, replaces);
  }

  /** Returns the same particulars, holding from a day on. */
  public Meta since(Optional<String> day) {
    return new Meta(id, on, when, who, note, version, day, until, replaces);
  }

  /** Returns the same particulars, holding until a day. */
  public Meta until(Optional<String> day) {
    return new Meta(id, on, when, who, note, version, since, day, replaces);
  }

  /** Returns the same particulars, in the place of an earlier change. */
  public Meta instead(String of) {
    return new Meta(id, on, when, who, note, version, since, until, Optional.of(of));
  }
}
