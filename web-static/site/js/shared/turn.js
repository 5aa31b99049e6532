import { el } from "../core/dom.js";
import { CORRECTORS } from "../core/may.js";
import { icon } from "../core/icons.js";
import { count, duration, plain } from "../core/words.js";

/** @typedef {import("../core/types.js").RoadTurn} Turn what is needed of one here */
/** @typedef {import("../core/types.js").Gap} Gap */

/** @type {Record<string, [string, string, string]>} what is said, sign, class */
const VERDICT = {
  time: ["There is time", "tick", "chip-good"],
  quick: ["Be quick", "warn", "chip-quick"],
  unknown: ["Time not known", "doubt", "chip-quick"],
  none: ["No time", "warn", "chip-bad"],
};

/** @param {Gap|undefined} gap */
export function gapText(gap) {
  if (!gap) return "";
  const plus = gap.plus?.length ? `plus ${gap.plus.join(", ")}` : "";
  if (!gap.bars && !gap.beats) return plus ? `no rest, ${plus}` : "no rest";
  const beats = gap.beats === undefined ? "" : count(Number(gap.beats.toFixed(1)), "beat");
  const time = gap.seconds === undefined ? "time unknown: no tempo yet" : duration(gap.seconds);
  return [gap.bars ? count(gap.bars, "bar") : "", beats, time, plus].filter(Boolean).join(" · ");
}

/**
 * Where the tempo is said that a turn's time hangs on; nothing where its time is known, or nothing is counted.
 *
 * @param {Turn} turn
 * @param {string} book
 * @param {string|undefined} bar at which its number begins
 */
export function tempoLink(turn, book, bar) {
  const { gap } = turn;
  if (!gap || gap.seconds !== undefined || !(gap.bars || gap.beats)) return null;
  return tempoAt(book, bar ?? turn.leaves);
}

/**
 * Leads to the field in which the tempo of a bar is written.
 *
 * @param {string} book
 * @param {string} bar
 */
export function tempoAt(book, bar) {
  return el("a", { class: "btn btn-quiet tempo-link", ...CORRECTORS, href: `/desk.html?b=${encodeURIComponent(book)}&bar=${encodeURIComponent(bar)}&field=tempo`, text: "Say the tempo" });
}

/** @param {Turn} turn @returns {string} "turn back each time round the vamp 9-12"; empty where it comes once */
export function againText({ again, direction }) {
  return again ? `turn ${direction === "back" ? "back " : ""}${again}` : "";
}

/** @param {Turn} turn */
export function turnKey(turn) {
  return `${turn.fromPage}>${turn.toPage}/${turn.direction}/${turn.pass}`;
}

/** @param {string} verdict */
export function verdictChip(verdict) {
  const [text, sign, cls] = VERDICT[verdict] ?? [plain(verdict), "doubt", ""];
  return el("span", { class: `chip ${cls}` }, icon(sign), text);
}
