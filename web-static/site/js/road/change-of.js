import { meterSaid, meterText } from "../core/words.js";
import { KINDS } from "./kinds.js";

/** @typedef {import("./kinds.js").Change} Change */

/** A beat of a bar, as a change names it. */
export const BEAT_OF_BAR = /^(.*?)\s+beat\s+([\d.]+)$/i;

/** @param {Change} change which of the kinds asks for all it says */
export function formOf(change) {
  if (change.kind === "jump") return change.toNumber ? "jump-on" : "jump";
  const inside = change.kind === "cut" && (change.pass || BEAT_OF_BAR.test(change.first) || BEAT_OF_BAR.test(change.last));
  return inside ? "cut-part" : change.kind;
}

/**
 * Makes a change of a whole number out of the answers.
 *
 * @param {keyof typeof import("./kinds.js").OF_NUMBER} kind
 * @param {string} number
 * @param {FormData|undefined} answer
 * @returns {Change}
 */
export function changeOfNumber(kind, number, answer) {
  /** @type {Record<string, unknown>} */
  const change = { number, kind };
  for (const [key, value] of answer ?? []) {
    if (value !== "") change[key] = typed(key, String(value));
  }
  return /** @type {Change} */ (/** @type {unknown} */ (change));
}

const NUMERIC = ["seconds", "times", "semitones", "perMinute", "toPerMinute", "beats", "bars", "fifths", "exitBeat"];

/**
 * What is answered as the format has it.
 *
 * @param {string} key
 * @param {string} value
 */
export function typed(key, value) {
  if (key === "errata") return true;
  const meter = key === "meter" ? meterSaid(value) : undefined;
  if (meter) return meterText(meter);
  return NUMERIC.includes(key) ? Number(value) : value.trim();
}

/**
 * Makes the change out of the chosen bars and the answers.
 *
 * @param {string} kind
 * @param {{number: string, first: string, last: string}} where
 * @param {FormData|undefined} answer
 * @returns {Change}
 */
export function changeOf(kind, { number, first, last }, answer) {
  const said = Object.fromEntries([...(answer ?? [])].filter(([, value]) => value !== ""));
  if (kind === "cut-part") {
    const at = (/** @type {string} */ name, /** @type {string} */ beat) => (said[beat] ? `${said[name]} beat ${said[beat]}` : String(said[name]));
    return { ...(number ? { number } : {}), kind: "cut", first: at("first", "fromBeat"), last: at("last", "toBeat"), ...(said.pass ? { pass: String(said.pass) } : {}) };
  }
  if (kind === "jump-on") return { ...(number ? { number } : {}), kind: "jump", from: last, toNumber: String(said.toNumber), to: String(said.to).trim() };
  if (kind === "vamp" && said.exitBeat && !said.exitBar) said.exitBar = last;
  /** @type {Record<string, unknown>} */
  const change = { ...(number ? { number } : {}), kind };
  if (KINDS[kind].after) {
    if (said.side === "before") change.before = first;
    else change.after = last;
    delete said.side;
  } else if (KINDS[kind].back) Object.assign(change, { from: last, to: first });
  else {
    change.first = first;
    if (!KINDS[kind].noLast || said.toPerMinute) change.last = last; // a tempo that changes by and by has a last bar
  }
  for (const [key, value] of Object.entries(said)) change[key] = typed(key, String(value));
  return /** @type {Change} */ (/** @type {unknown} */ (change));
}

/**
 * The order of numbers when one of them is played before another: those between move along.
 *
 * @param {string[]} labels as they are played now
 * @param {string} moved
 * @param {string} before another label, or nothing for the end
 */
export function orderOf(labels, moved, before) {
  const others = labels.filter((l) => l !== moved);
  const at = before === "" ? others.length : others.indexOf(before);
  others.splice(at, 0, moved);
  const from = labels.findIndex((l, i) => l !== others[i]);
  let to = labels.length - 1;
  while (to > from && labels[to] === others[to]) to--;
  return from < 0 ? [] : others.slice(from, to + 1);
}
