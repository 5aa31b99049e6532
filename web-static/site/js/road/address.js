/** Turns chosen bars into the words a change uses, and changes into sentences. */

import { keyText } from "../core/words.js";

/** @typedef {import("../core/types.js").RoadBar} RoadBar */
/** @typedef {import("../core/types.js").Change} Change */

/** @param {RoadBar} bar where a number occurs twice, its ending is said */
export function firstAddress(bar) {
  return inEnding(bar, bar.label ?? String(bar.number));
}

/** @param {RoadBar} bar the last bar of a multi-bar rest is its end */
export function lastAddress(bar) {
  return inEnding(bar, bar.label ?? String(bar.number + bar.count - 1));
}

/**
 * @param {RoadBar} bar
 * @param {string} name
 */
function inEnding(bar, name) {
  return bar.within ? `${name} in the ${bar.within}` : name;
}

/** @type {Record<string, string>} note values as a player says them */
export const BEAT = { "1/1": "whole", "3/4": "dotted half", "1/2": "half", "3/8": "dotted quarter", "1/4": "quarter", "3/16": "dotted eighth", "1/8": "eighth" };

/** @param {{first: string, last?: string}} c */
function span(c) {
  return c.last && c.last !== c.first ? `${c.first} to ${c.last}` : `${c.first}`;
}

/** @type {{[K in Exclude<Change["kind"], "order">]: (c: Extract<Change, {kind: K}>) => string}} one for every kind */
const SENTENCES = {
  cut: (c) => `cut ${span(c)}`,
  vamp: (c) => `vamp ${span(c)}, leave ${c.leave === "any-time" ? "at any time" : "at the end of a pass"}`,
  safety: (c) => `safety ${span(c)}`,
  play: (c) => `play ${span(c)} ${c.times} times`,
  insert: (c) => `${c.bars} inserted after ${c.after}${c.label ? `, called ${c.label}` : ""}`,
  tacet: () => "tacet",
  "cut-number": () => "the whole number is cut",
  tempo: (c) =>
    c.toPerMinute
      ? `tempo from ${span(c)} ${BEAT[c.beat] ?? c.beat} = ${c.perMinute} to ${c.toPerMinute}`
      : `tempo from ${c.first} ${BEAT[c.beat] ?? c.beat} = ${c.perMinute}`,
  key: (c) => `${keyText(Number(c.fifths))} from ${c.first}`,
  beats: (c) => `${span(c)} in ${c.beats}`,
  instrument: (c) => `${c.to} from ${c.first}`,
  remind: (c) => `${c.what === "text" ? (c.note ?? "reminder") : c.what} at ${c.first}`,
};

/** @param {Change} change one sentence a player understands */
export function sentence(change) {
  if (change.kind === "order") return `Order of numbers: ${change.numbers.join(", ")}`;
  const say = /** @type {((c: Change) => string)|undefined} */ (SENTENCES[change.kind]);
  return `${change.number ? `No. ${change.number}: ` : ""}${say ? say(change) : String(change.kind).replace(/-/g, " ")}`;
}
