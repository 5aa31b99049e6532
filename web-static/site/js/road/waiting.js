import { sentence } from "./kinds.js";

/** @typedef {import("../core/types.js").KeptChange} KeptChange */
/** @typedef {import("../core/types.js").RoadMark} RoadMark */
/** @typedef {import("../core/types.js").RoadNumber} RoadNumber */

/**
 * Where a bar is, as a director calls it: by its number, or by its rehearsal mark.
 *
 * @param {RoadNumber} number
 * @param {unknown} said "34", "24A", "D", "34 beat 2"
 * @returns {{bar: string, at: number, share: number}|undefined} at: before it; share: what one bar takes of the entry
 */
function placeOf(number, said) {
  const name = String(said ?? "").replace(/\s+beat\s.*$/i, "").trim().toLowerCase();
  if (!name) return undefined;
  for (const bar of number.bars) {
    const share = 1 / bar.count;
    if (bar.label?.toLowerCase() === name || bar.rehearsal?.text.toLowerCase() === name) return { bar: bar.id, at: 0, share };
    const within = /^\d+$/.test(name) ? Number(name) - bar.number : -1;
    if (!bar.label && within >= 0 && within < bar.count) return { bar: bar.id, at: within * share, share };
  }
  return undefined;
}

/**
 * A change that waits, where it stands in the form; over its number where that can't be told without the service.
 *
 * @param {KeptChange} change
 * @param {RoadNumber[]} numbers
 * @returns {RoadMark}
 */
function markOf(change, numbers) {
  const { first, last, after, before, from, to } = /** @type {Record<string, unknown>} */ (/** @type {unknown} */ (change));
  const number = numbers.find((n) => n.label.toLowerCase() === (change.number ?? "").trim().toLowerCase());
  const whole = sentence(change);
  const says = change.number ? whole.slice(whole.indexOf(": ") + 2) : whole;
  const mark = { change: change.id, number: number?.label ?? "", sign: says, says, waits: true };
  const begins = number && placeOf(number, first ?? after ?? before ?? from);
  if (!number || !begins) return { ...mark, place: number ? "head" : "show" };
  const ends = placeOf(number, last ?? to) ?? begins;
  const at = after !== undefined || from !== undefined ? begins.at + begins.share : begins.at;
  return { ...mark, place: "bars", from: { bar: begins.bar, at }, ...(last === undefined ? {} : { to: { bar: ends.bar, at: ends.at + ends.share } }) };
}

/**
 * The marks of the form with the changes that wait: new ones, those said otherwise, without those taken out or switched off.
 *
 * @param {RoadMark[]} marks as the service drew them
 * @param {KeptChange[]} changes with those that wait
 * @param {RoadNumber[]} numbers
 */
export function marksNow(marks, changes, numbers) {
  const there = new Map(changes.map((c) => [c.id, c]));
  const kept = marks.filter((m) => !m.change || (there.has(m.change) && there.get(m.change)?.waits !== true));
  return [...kept, ...changes.filter((c) => c.waits && c.on !== false).map((c) => markOf(c, numbers))];
}
