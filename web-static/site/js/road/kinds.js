import { field } from "../core/dialog.js";
import { el } from "../core/dom.js";
import { count, dayText, keyText, numberNo } from "../core/words.js";
import { BEAT, BEATS, INTERVALS, KEYS, PASSES, REMINDERS, bar, figure, inPass, interval, leaves, meterField, passField, select, span, waits } from "./kind-fields.js";

/**
 * The kinds of change by their words in the format; bars are named as a player says them: "34", "24A", "24 in the 2nd ending".
 *
 * @typedef {{first: string, last: string}} Span
 * @typedef {{kind: "cut", pass?: string} & Span
 *   | {kind: "hold", first?: string, after?: string, cue?: string, pass?: string}
 *   | {kind: "gp", first?: string, after?: string, cue?: string, pass?: string}
 *   | {kind: "rit"} & Span
 *   | {kind: "accel"} & Span
 *   | {kind: "a-tempo", first: string}
 *   | {kind: "tempo-word", first: string, text: string}
 *   | {kind: "without", first: string, sign: "jump" | "coda" | "hold" | "tempo"}
 *   | {kind: "meter", meter: string} & Span
 *   | {kind: "transpose", semitones: number, first?: string, last?: string}
 *   | {kind: "track"}
 *   | {kind: "repeats-after-jump"}
 *   | {kind: "restore", first?: string, last?: string, text?: string}
 *   | {kind: "jump", from: string, toNumber?: string, to: string, times?: number}
 *   | {kind: "only", pass: string} & Span
 *   | {kind: "not", pass?: string} & Span
 *   | {kind: "vamp", leave: "any-time"|"end-of-pass", cue?: string, exitBar?: string, exitBeat?: number, pass?: string} & Span
 *   | {kind: "safety", pass?: string} & Span
 *   | {kind: "play", times: number} & Span
 *   | {kind: "insert", after?: string, before?: string, bars: number, content?: "rest"|"music", meter?: string, label?: string}
 *   | {kind: "tacet"}
 *   | {kind: "cut-number"}
 *   | {kind: "link", link: string, to?: string, seconds?: number, cue?: string}
 *   | {kind: "order", numbers: string[]}
 *   | {kind: "tempo", first: string, last?: string, beat: string, perMinute: number, toPerMinute?: number}
 *   | {kind: "key", first: string, fifths: number}
 *   | {kind: "beats", beats: number} & Span
 *   | {kind: "instrument", first: string, to: string}
 *   | {kind: "remind", first: string, what: string}
 *   | {kind: "note", first?: string, text: string, errata?: boolean}} OfAKind
 * @typedef {{number?: string, note?: string, version?: string, since?: string, until?: string, replaces?: string} & OfAKind} Change
 */

/**
 * What the page knows of a kind of change: its button, its question, what more must be known. `noLast`: it has no last
 * bar, `after` stands behind the last one; `anywhere`: it may name no bar; `noted`: its words are its note.
 *
 * @typedef {object} Offer
 * @property {string} text
 * @property {string} title
 * @property {(first: string, last: string, others: [string, string][]) => HTMLElement[]} fields `others`: label and name of the numbers that come later
 * @property {boolean} [noLast]
 * @property {boolean} [after]
 * @property {boolean} [anywhere]
 * @property {boolean} [noted]
 * @property {boolean} [back] it leads from the last bar to the first
 */

/**
 * The same, and how a change of the kind is said.
 *
 * @template {string} K
 * @typedef {Offer & {says: (c: Extract<Change, {kind: K}>) => string}} Kind
 */

/** @type {{[K in Exclude<Change["kind"], "order"|"tacet"|"cut-number"|"link"|"track"|"repeats-after-jump">]: Kind<K>} & {"cut-part": Kind<"cut">, "jump-on": Kind<"jump">}} */
const OF_BARS = {
  cut: { text: "Cut these", title: "Cut", fields: () => [], says: (c) => `cut ${span(c)}${inPass(c.pass)}` },
  only: {
    text: "I play in one pass only",
    title: "Played in one pass only",
    fields: () => [field("In which pass", select("pass", PASSES, "2"))],
    says: (c) => `play ${span(c)}${inPass(c.pass)} only`,
  },
  not: {
    text: "I don't play here",
    title: "Tacet for me, the others play",
    fields: () => [field("In which pass", select("pass", [["", "every time"], ...PASSES]))],
    says: (c) => `tacet ${span(c)}${inPass(c.pass)}`,
  },
  "cut-part": {
    text: "Cut a part of them",
    title: "Cut from beat to beat",
    fields: (first, last) => [
      el("p", { class: "soft", text: "A bar inside a long rest is named by its number. Without a beat the whole bar is out." }),
      el("div", { class: "pair" }, field("From bar", bar("first", first)), field("its beat", figure("fromBeat", 1, 32, ""))),
      el("div", { class: "pair" }, field("To bar, this one too", bar("last", last)), field("its beat", figure("toBeat", 1, 32, ""))),
      field("In which pass", select("pass", [["", "every time"], ...PASSES])),
    ],
    says: (c) => `cut ${span(c)}${inPass(c.pass)}`,
  },
  vamp: {
    text: "Vamp",
    title: "Vamp",
    fields: (first, last) => [
      field("It is left", select("leave", [["end-of-pass", "at the end of a pass"], ["any-time", "at any time"]])),
      field("Till when", el("input", { name: "cue", maxlength: 120, autocomplete: "off", placeholder: "the cart stops" }), "May be left empty: then on the director's cue."),
      passField(),
      el("div", { class: "pair" }, field("The last time, out after bar", el("input", { name: "exitBar", maxlength: 40, autocomplete: "off", placeholder: last })), field("or on its beat", figure("exitBeat", 1, 32, ""))),
      el("p", { class: "field-hint", text: `Only where one goes on from inside ${first === last ? "the bar" : "the bars"}.` }),
    ],
    says: (c) => `vamp ${span(c)}${inPass(c.pass)}${c.cue ? ` till ${c.cue}` : ""}, ${leaves(c)}`,
  },
  safety: { text: "Safety", title: "Safety", fields: () => [passField()], says: (c) => `safety ${span(c)}${inPass(c.pass)}` },
  play: {
    text: "Play n times",
    title: "Play several times",
    fields: () => [field("Times in all", figure("times", 1, 99, "2"))],
    says: (c) => `play ${span(c)}, ${c.times} times`,
  },
  insert: {
    text: "Insert bars",
    title: "New bars",
    fields: () => [
      field("How many bars", figure("bars", 1, 500, "2")),
      field("Where", select("side", [["after", "after what is chosen"], ["before", "before what is chosen"]], "after")),
      field("They are", select("content", [["", "not known yet"], ["music", "music"], ["rest", "rests"]], "")),
      meterField("Meter", { hint: "Only if it is another one." }),
      field("What the first is called", el("input", { name: "label", maxlength: 10, placeholder: "24A", autocomplete: "off" }), "May be left empty; the others go on from it: 24B, 24C."),
    ],
    says: (c) => `${count(c.bars, "bar")}${c.meter ? ` of ${c.meter}` : ""}${c.content ? ` (${c.content})` : ""} inserted ${c.before ? `before ${c.before}` : `after ${c.after}`}${c.label ? `, called ${c.label}` : ""}`,
    after: true,
  },
  tempo: {
    text: "Tempo",
    title: "Tempo",
    fields: () => [
      field("Beat", select("beat", BEATS)),
      field("Beats a minute", figure("perMinute", 10, 400, "120")),
      field("Rit. or accel. to", figure("toPerMinute", 10, 400, ""), "Beats a minute at the end of the chosen bars. May be left empty."),
    ],
    says: (c) =>
      c.toPerMinute
        ? `tempo from ${span(c)}: ${BEAT[c.beat] ?? c.beat} = ${c.perMinute} to ${c.toPerMinute}`
        : `tempo from ${c.first}: ${BEAT[c.beat] ?? c.beat} = ${c.perMinute}`,
    noLast: true,
  },
  beats: {
    text: "In two, in four",
    title: "How it is beaten",
    fields: () => [field("Beats in a bar", figure("beats", 1, 32, "2"))],
    says: (c) => `${span(c)} in ${c.beats}`,
  },
  key: {
    text: "Key",
    title: "Key",
    fields: () => [field("In your part, from here on", select("fifths", KEYS, "0"))],
    says: (c) => `${keyText(Number(c.fifths))} from ${c.first}`,
    noLast: true,
  },
  instrument: {
    text: "Instrument",
    title: "Instrument",
    fields: () => [field("From here on", el("input", { name: "to", maxlength: 80, required: true }))],
    says: (c) => `${c.to} from ${c.first}`,
    noLast: true,
  },
  jump: {
    text: "Go back and play them again",
    title: "Back from the last of these to the first",
    fields: () => [field("So often", figure("times", 1, 99, "1"))],
    says: (c) => `from ${c.from} ${c.toNumber ? `to No. ${c.toNumber} bar ${c.to}` : `back to ${c.to}`}${c.times && c.times > 1 ? ` ${c.times} times` : ""}`,
    back: true,
  },
  "jump-on": {
    text: "Go on in another number",
    title: "On into another number",
    fields: (first, last, others) =>
      others.length
        ? [field("Number", select("toNumber", others)), field("Land on bar", bar("to", "1"))]
        : [el("p", { text: "No number comes after this one." })],
    says: (c) => `from ${c.from} to No. ${c.toNumber} bar ${c.to}`,
    after: true,
  },
  restore: { text: "Back in again", title: "Back in again", anywhere: true, fields: () => [], says: (c) => (c.text ? `taken back: ${c.text}` : `${c.first ? `${span({ first: c.first, last: c.last })} ` : ""}back in`) },
  hold: {
    text: "Hold",
    title: "Hold",
    fields: () => [field("Till when", el("input", { name: "cue", maxlength: 120, autocomplete: "off" }), "May be left empty."), passField()],
    says: (c) => `hold ${waits(c)}${inPass(c.pass)}`,
    noLast: true,
  },
  gp: {
    text: "G.P., everybody stops after it",
    title: "General pause after",
    fields: () => [field("Till when", el("input", { name: "cue", maxlength: 120, autocomplete: "off" }), "May be left empty."), passField()],
    says: (c) => `G.P. ${waits(c)}${inPass(c.pass)}`,
    after: true,
  },
  rit: { text: "Rit.", title: "Slower", fields: () => [], says: (c) => `rit. ${span(c)}` },
  accel: { text: "Accel.", title: "Faster", fields: () => [], says: (c) => `accel. ${span(c)}` },
  "tempo-word": {
    text: "Faster or slower",
    title: "Another tempo, in words",
    fields: () => [field("In words", el("input", { name: "text", maxlength: 60, required: true, placeholder: "a little faster" }), "Without a figure the times behind it are not known; \"double time\" and \"half time\" are reckoned.")],
    says: (c) => `${c.text} from ${c.first}`,
    noLast: true,
  },
  without: {
    text: "Not as printed",
    title: "A printed sign is not followed",
    fields: () => [field("Which", select("sign", [["jump", "the D.C. or D.S."], ["coda", "the jump to the coda"], ["hold", "the hold"], ["tempo", "the rit. or accel."]], "jump"))],
    says: (c) => `no ${{ jump: "jump", coda: "jump to the coda", hold: "hold", tempo: "rit." }[c.sign]} at ${c.first}`,
    noLast: true,
  },
  "a-tempo": { text: "A tempo", title: "A tempo", fields: () => [], says: (c) => `a tempo at ${c.first}`, noLast: true },
  meter: {
    text: "Meter",
    title: "Another meter",
    fields: () => [meterField("In", { value: "3/4" })],
    says: (c) => `${span(c)} in ${c.meter}`,
  },
  transpose: {
    text: "Up or down",
    title: "Transpose",
    anywhere: true,
    fields: () => [field("By", select("semitones", INTERVALS, "1"))],
    says: (c) => `${interval(c.semitones)}${c.first ? ` from ${span({ first: c.first, last: c.last })}` : ""}`,
  },
  remind: {
    text: "Reminder",
    title: "Reminder",
    fields: () => [field("What", select("what", REMINDERS)), field("In your words", el("input", { name: "note", maxlength: 120 }))],
    says: (c) => `${c.what === "text" ? (c.note ?? "reminder") : c.what} at ${c.first}`,
    noLast: true,
    noted: true,
  },
  note: {
    text: "Note",
    title: "Note",
    fields: () => [field("In your words", el("input", { name: "text", maxlength: 300, required: true }), "Kept with its date; nothing in the plan follows from it."), field("It is", select("errata", [["", "a remark"], ["true", "a misprint, for the hirer"]]))],
    says: (c) => `${c.errata ? "misprint" : "note"}${c.first ? ` at ${c.first}` : ""}: ${c.text}`,
    noLast: true,
    anywhere: true,
  },
};

/** @type {Record<string, Offer>} the kinds of change for chosen bars */
export const KINDS = OF_BARS;

/** @type {[string, string][]} */
const LINKS = [
  ["attacca", "at once (attacca)"], ["segue-as-one", "in time on the next downbeat (segue as one)"], ["segue", "on cue (segue)"],
  ["applause-segue", "after the applause"], ["break", "not directly: dialogue or a scene"],
];

/**
 * The kinds for a whole number; what more must be known is asked with `fields`.
 *
 * @type {{[K in "cut-number"|"tacet"|"link"|"track"|"restore"|"transpose"|"repeats-after-jump"]: {kind: K, text: string, says: (c: Extract<Change, {kind: K}>) => string, fields?: () => HTMLElement[]}}}
 */
export const OF_NUMBER = {
  "cut-number": { kind: "cut-number", text: "It is cut", says: () => "the whole number is cut" },
  tacet: { kind: "tacet", text: "Tacet: I don't play in it", says: () => "tacet" },
  restore: { kind: "restore", text: "It is back in", says: OF_BARS.restore.says },
  transpose: { kind: "transpose", text: "Up or down", says: OF_BARS.transpose.says, fields: () => [field("By", select("semitones", INTERVALS, "1"))] },
  track: { kind: "track", text: "It runs with a track", says: () => "to track" },
  "repeats-after-jump": { kind: "repeats-after-jump", text: "Repeats again after the D.C. or D.S.", says: () => "with repeats" },
  link: {
    kind: "link",
    text: "What follows it",
    fields: () => [
      field("The next number follows", select("link", LINKS, "segue")),
      field("After so many seconds", figure("seconds", 0, 3600, ""), "May be left empty: then nobody knows how long there is."),
      field("On whose cue, on what", el("input", { name: "cue", maxlength: 120, autocomplete: "off" }), "May be left empty."),
    ],
    says: (c) => `the next number: ${c.link === "break" ? "no segue" : c.link.replace(/-/g, " ")}${c.to ? ` to No. ${c.to}` : ""}${c.seconds === undefined ? "" : `, ${c.seconds} s`}${c.cue ? `, on ${c.cue}` : ""}`,
  },
};

/** @param {Change} change one sentence a player understands */
export function sentence(change) {
  if (change.kind === "order") return `Order of numbers: ${change.numbers.join(", ")}`;
  const known = /** @type {Record<string, {says: (c: Change) => string}|undefined>} */ ({ ...OF_BARS, ...OF_NUMBER })[change.kind];
  return `${change.number ? `${numberNo(change.number)}: ` : ""}${known ? known.says(change) : String(change.kind).replace(/-/g, " ")}${change.version ? `, ${change.version} only` : ""}${change.since ? `, from ${dayText(change.since)} on` : ""}${change.until ? `, until ${dayText(change.until)}` : ""}`;
}
