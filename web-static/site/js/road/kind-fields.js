import { field } from "../core/dialog.js";
import { el } from "../core/dom.js";
import { METER_HINT, METERS, MOST_FIFTHS, keyText, meterSaid } from "../core/words.js";

/** @type {Record<string, string>} note values as a player says them */
export const BEAT = { "1/1": "whole", "3/4": "dotted half", "1/2": "half", "3/8": "dotted quarter", "1/4": "quarter", "3/16": "dotted eighth", "1/8": "eighth" };

/** @param {{first?: string, last?: string}} c */
export function span(c) {
  return c.last && c.last !== c.first ? `${c.first} to ${c.last}` : `${c.first}`;
}

/** @type {[string, string][]} */
export const PASSES = [["1", "1st time"], ["2", "2nd time"], ["3", "3rd time"], ["4", "4th time"], ["last", "last time"], ["after-jump", "on the D.C. or D.S."]];

/** @param {string|undefined} pass */
export function inPass(pass) {
  return pass ? `, ${new Map(PASSES).get(pass) ?? `time ${pass}`}` : "";
}

/** Which time through a repeat around the bars. */
export function passField() {
  return field("Where the bars are repeated", select("pass", [["", "every time"], ...PASSES]));
}

/**
 * A time signature, typed as at the desk.
 *
 * @param {string} label
 * @param {{hint?: string, value?: string}} [more] `value`: what stands there at first; without one it may be left empty
 */
export function meterField(label, { hint, value } = {}) {
  const input = el("input", { name: "meter", maxlength: 12, value, required: value !== undefined, placeholder: "3/4", list: "road-meters", autocomplete: "off" });
  input.addEventListener("input", () => input.setCustomValidity(input.value.trim() && !meterSaid(input.value) ? METER_HINT : ""));
  const body = field(label, input, hint);
  body.append(el("datalist", { id: "road-meters" }, METERS.map((m) => el("option", { value: m }))));
  return body;
}

const STEPS = ["semitone", "whole tone", "minor third", "major third", "fourth", "tritone", "fifth", "minor sixth", "major sixth", "minor seventh", "major seventh", "octave"];

/** @param {number} semitones */
export function interval(semitones) {
  const name = STEPS[Math.abs(semitones) - 1];
  return `${semitones < 0 ? "down" : "up"} ${name ? `${name === "octave" ? "an" : "a"} ${name}` : `${Math.abs(semitones)} semitones`}`;
}

export const INTERVALS = [1, 2, 3, 4, 5, 6, -1, -2, -3, -4, -5].map((n) => /** @type {[string, string]} */ ([String(n), interval(n)]));

/** @param {{first?: string, after?: string, cue?: string}} c */
export function waits(c) {
  return `${c.first ? `at ${c.first}` : `after ${c.after}`}${c.cue ? ` till ${c.cue}` : ""}`;
}

/** @param {{leave: string, exitBar?: string, exitBeat?: number}} c */
export function leaves({ leave, exitBar, exitBeat }) {
  if (exitBar) return exitBeat ? `out on beat ${exitBeat} of ${exitBar}` : `out after ${exitBar}`;
  return `leave ${leave === "any-time" ? "at any time" : "at the end of a pass"}`;
}

/** @type {[string, string][]} */
export const REMINDERS = [
  ["watch", "watch the director"], ["cue", "cue"], ["push", "push on"], ["pull", "pull back"], ["bow", "bow"],
  ["pizz", "pizz."], ["mute", "mute"], ["extension", "extension"], ["missed", "missed before"], ["text", "in your own words"],
];

/**
 * @param {string} name
 * @param {[string, string][]} options
 * @param {string} [now]
 */
export function select(name, options, now) {
  const node = el("select", { name }, options.map(([value, text]) => el("option", { value, text })));
  if (now !== undefined) node.value = now;
  return node;
}

/**
 * @param {string} name
 * @param {number} min
 * @param {number} max
 * @param {string} value may be empty, then it may be left out
 */
export function figure(name, min, max, value) {
  return el("input", { name, type: "number", min, max, value, required: value !== "", inputmode: "numeric" });
}

/** @param {string} name @param {string} value */
export function bar(name, value) {
  return el("input", { name, value, maxlength: 40, required: true, autocomplete: "off" });
}

export const KEYS = /** @type {[string, string][]} */ (Array.from({ length: 2 * MOST_FIFTHS + 1 }, (_, i) => [String(i - MOST_FIFTHS), keyText(i - MOST_FIFTHS)]));
export const BEATS = /** @type {[string, string][]} */ (["1/4", "3/8", "1/2", "1/8", "3/4", "1/1"].map((b) => [b, BEAT[b]]));
