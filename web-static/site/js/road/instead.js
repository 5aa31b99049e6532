/** @typedef {import("../core/types.js").KeptChange} Change */

/** @param {Change} change whether it holds in every show */
const always = (change) => !change.version && !change.since && !change.until;

/** @param {Change} change whether it does nothing but take another one back */
const takesBack = (change) => change.kind === "restore" && "text" in change && change.text !== undefined;

/**
 * The ids of those that others stand in the place of: what came in the place of one that came in another's place stands for both; where it only takes that one back, the other one counts again.
 * As the service reckons it (`ShowChanges.without`).
 *
 * @param {Change[]} all
 */
function gone(all) {
  const out = new Set();
  const undone = new Set();
  const kept = new Set();
  for (const change of [...all].reverse()) {
    const counts = !out.has(change.id);
    const old = change.replaces === change.id ? undefined : change.replaces;
    if (counts) {
      kept.add(change.id);
    }
    if (old && (counts || (!undone.has(change.id) && !kept.has(old)))) {
      out.add(old);
      if (takesBack(change)) {
        undone.add(old);
      }
    }
  }
  return out;
}

/**
 * What counts in the place of a change among those of one show; nothing where the change itself counts.
 *
 * @param {Change} change
 * @param {Change[]} all
 * @returns {Change|undefined}
 */
function standing(change, all) {
  const out = gone(all);
  /** @type {(id: string, seen: string[]) => Change|undefined} */
  const inPlace = (id, seen) => {
    for (const one of all.filter((c) => c.replaces === id && !seen.includes(c.id)).reverse()) {
      const stands = out.has(one.id) ? inPlace(one.id, [...seen, one.id]) : one;
      if (stands && (stands === one || !takesBack(stands))) {
        return stands;
      }
    }
    return undefined;
  };
  return out.has(change.id) ? inPlace(change.id, [change.id]) : undefined;
}

/**
 * What stands in the place of a change: always, or on some days or in some shows only.
 *
 * @param {Change} change
 * @param {Change[]} all
 * @returns {{by: Change, always: boolean}|undefined}
 */
export function insteadOf(change, all) {
  const on = all.filter((c) => c.on !== false);
  const now = standing(change, on.filter((c) => always(c) || c === change));
  if (now) {
    return { by: now, always: true };
  }
  const out = gone(on.filter(always));
  const left = on.filter((c) => !out.has(c.id));
  for (const other of left.filter((c) => !always(c)).reverse()) {
    const day = other.since ?? other.until ?? "";
    const there = left.filter((c) => (!c.version || c.version === other.version) && (!c.since || (day !== "" && day >= c.since)) && (!c.until || day <= c.until));
    const by = there.includes(change) ? standing(change, there) : undefined;
    if (by) {
      return { by, always: false };
    }
  }
  return undefined;
}
