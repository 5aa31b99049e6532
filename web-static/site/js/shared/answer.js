/** @typedef {import("../core/types.js").KeptChange} KeptChange */

/**
 * One step in the list of changes.
 *
 * @typedef {{method: "POST"|"PATCH"|"DELETE", path: string, body?: object}} Step
 */

/**
 * What it takes to say one way of a question beyond doubt: the change it is about becomes what is offered, and what else that takes is added.
 *
 * @param {KeptChange[]} changes the list now
 * @param {string|undefined} about id of the change the question is about
 * @param {KeptChange[]} instead
 * @param {string} who makes them, may be empty
 * @returns {Step[]} one after the other, each taken back by one step back
 */
export function stepsOf(changes, about, instead, who) {
  /** @type {Step[]} */
  const steps = [];
  const at = (/** @type {string} */ id) => `/changes/${encodeURIComponent(id)}`;
  for (const { id, ...said } of instead) {
    const kept = changes.find((c) => c.id === id);
    const now = /** @type {Record<string, unknown>} */ (kept ?? {});
    const other = Object.entries(said).filter(([key, value]) => JSON.stringify(now[key]) !== JSON.stringify(value));
    if (!kept) steps.push({ method: "POST", path: "/changes", body: who ? { ...said, who } : said });
    else if (other.length) steps.push({ method: "PATCH", path: at(id), body: Object.fromEntries(other) });
  }
  if (about && !instead.some((c) => c.id === about)) steps.push({ method: "DELETE", path: at(about) });
  return steps;
}
