/** Whether a step that was meant for a map that was seen still means the same in the map there is now. */

/** @typedef {import("../core/types.js").BarMap} BarMap */
/** @typedef {import("../core/types.js").Bar} Bar */
/** @typedef {import("../core/types.js").History} History */

/**
 * A bar without what settling works out anew all the time: its number, and how sure all is.
 *
 * @param {Bar|undefined} bar
 */
function said(bar) {
  if (!bar) return "";
  return JSON.stringify({ ...bar, number: 0, confidence: 0, origin: "", evidence: undefined });
}

/**
 * @param {BarMap} map
 * @param {number} page
 * @param {number|undefined} system the whole page when absent
 */
function placed(map, page, system) {
  const lines = map.pages.find((p) => p.index === page)?.systems.filter((s) => system === undefined || s.index === system) ?? [];
  const bars = map.bars.filter((b) => b.page === page && (system === undefined || b.system === system));
  return JSON.stringify([lines.map((s) => s.outline), bars.map((b) => [b.id, b.outline])]);
}

/**
 * @param {object} step a correction, with what names its places
 * @param {BarMap} was
 * @param {BarMap} now
 */
export function stillMeans(step, was, now) {
  const { kind, bar, to, before, page, system } = /** @type {{kind?: string, bar?: string, to?: string, before?: string|number, page?: number, system?: number}} */ (step);
  const ids = [bar, to, kind === "add-barline" ? "" : before].filter((id) => id !== undefined && id !== "" && id !== "end");
  const find = (/** @type {BarMap} */ map, /** @type {string|number|undefined} */ id) => map.bars.find((b) => b.id === id);
  if (ids.some((id) => said(find(was, id)) === "" || said(find(was, id)) !== said(find(now, id)))) return false;
  if (page === undefined || (kind === "dismiss-doubt" && bar)) return true;
  if (kind === "verify-page") {
    // all of the page was looked at, its numbers too
    const seen = (/** @type {BarMap} */ map) => JSON.stringify(map.bars.filter((b) => b.page === page).map((b) => [said(b), b.number]));
    return seen(was) === seen(now);
  }
  return placed(was, page, kind === "add-system" ? undefined : system) === placed(now, page, kind === "add-system" ? undefined : system);
}

/**
 * Whether the step that would be taken back, or made again, is the one it was.
 *
 * @param {History} was
 * @param {History} now
 */
export function sameSteps(was, now) {
  const steps = (/** @type {History} */ h) => JSON.stringify(h.entries.map((e) => [e.id, e.undone === true]));
  return steps(was) === steps(now);
}
