import { field } from "../core/dialog.js";
import { el } from "../core/dom.js";
import { MOST_FIFTHS, keyText } from "../core/words.js";
import { BEAT } from "./address.js";

/** @typedef {import("../core/types.js").Change} Change */

/** @type {[string, string][]} */
const REMINDERS = [
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
function figure(name, min, max, value) {
  return el("input", { name, type: "number", min, max, value, required: value !== "", inputmode: "numeric" });
}

/** @param {string} name @param {string} value */
function bar(name, value) {
  return el("input", { name, value, maxlength: 40, required: true, autocomplete: "off" });
}

const KEYS = /** @type {[string, string][]} */ (Array.from({ length: 2 * MOST_FIFTHS + 1 }, (_, i) => [String(i - MOST_FIFTHS), keyText(i - MOST_FIFTHS)]));
const BEATS = /** @type {[string, string][]} */ (["1/4", "3/8", "1/2", "1/8", "3/4", "1/1"].map((b) => [b, BEAT[b]]));

/**
 * What more must be known for each kind of change; `title` heads the question.
 *
 * @type {Record<string, {text: string, title: string, fields: (first: string, last: string) => HTMLElement[]}>}
 */
export const KINDS = {
  cut: { text: "Cut these", title: "Cut", fields: () => [] },
  "cut-part": {
    text: "Cut a part of them",
    title: "Cut from beat to beat",
    fields: (first, last) => [
      el("p", { class: "soft", text: "A bar inside a long rest is named by its number. Without a beat the whole bar is out." }),
      el("div", { class: "pair" }, field("From bar", bar("first", first)), field("its beat", figure("fromBeat", 1, 32, ""))),
      el("div", { class: "pair" }, field("To bar, this one too", bar("last", last)), field("its beat", figure("toBeat", 1, 32, ""))),
    ],
  },
  vamp: { text: "Vamp", title: "Vamp", fields: () => [field("It is left", select("leave", [["end-of-pass", "at the end of a pass"], ["any-time", "at any time"]]))] },
  safety: { text: "Safety", title: "Safety", fields: () => [] },
  play: { text: "Play n times", title: "Play several times", fields: () => [field("Times in all", figure("times", 1, 99, "2"))] },
  insert: {
    text: "Insert bars after",
    title: "New bars after",
    fields: () => [field("How many bars", figure("bars", 1, 500, "2")), field("What the first is called", el("input", { name: "label", maxlength: 10, placeholder: "24A", autocomplete: "off" }), "May be left empty.")],
  },
  tempo: {
    text: "Tempo",
    title: "Tempo",
    fields: () => [
      field("Beat", select("beat", BEATS)),
      field("Beats a minute", figure("perMinute", 10, 400, "120")),
      field("By and by to", figure("toPerMinute", 10, 400, ""), "Only for a rit. or an accel. over the chosen bars."),
    ],
  },
  beats: { text: "In two, in four", title: "How it is beaten", fields: () => [field("Beats in a bar", figure("beats", 1, 32, "2"))] },
  key: { text: "Key", title: "Key", fields: () => [field("In your part, from here on", select("fifths", KEYS, "0"))] },
  instrument: { text: "Instrument", title: "Instrument", fields: () => [field("From here on", el("input", { name: "to", maxlength: 80, required: true }))] },
  remind: { text: "Reminder", title: "Reminder", fields: () => [field("What", select("what", REMINDERS)), field("In your words", el("input", { name: "note", maxlength: 120 }))] },
};

const NUMERIC = ["times", "perMinute", "toPerMinute", "beats", "bars", "fifths"];
/** These hold from their first bar on; only a tempo that changes by and by has a last one. */
const FROM_ONE = ["tempo", "instrument", "remind", "key"];

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
    return { ...(number ? { number } : {}), kind: "cut", first: at("first", "fromBeat"), last: at("last", "toBeat") };
  }
  /** @type {Record<string, unknown>} */
  const change = { ...(number ? { number } : {}), kind };
  if (kind === "insert") change.after = last;
  else {
    change.first = first;
    if (!FROM_ONE.includes(kind) || said.toPerMinute) change.last = last;
  }
  for (const [key, value] of Object.entries(said)) change[key] = NUMERIC.includes(key) ? Number(value) : String(value);
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
