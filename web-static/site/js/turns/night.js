import { el } from "../core/dom.js";
import { count, duration, inHand, knownText, numberName, numberNo, plain } from "../core/words.js";
import { unsureText } from "./head.js";

/** @typedef {import("../core/types.js").RunSheetLine} RunSheetLine */

/** @type {Record<string, string>} */
const EXIT = { "any-time": "out any time", "end-of-pass": "out at the end of a pass" };

/**
 * The night in order: what comes, how it begins, what is in the hands, where it waits, what is out.
 *
 * @param {RunSheetLine[]} sheet
 * @param {import("../core/types.js").Night|undefined} night
 * @param {import("../shared/theirs.js").TheirBars} theirs what bars are called in the part beside this one
 * @param {(number: string) => HTMLElement|null} tempo leads to where the tempo of a number is said
 */
export function nightList(sheet, night, theirs, tempo) {
  if (sheet.length === 0) return el("p", { class: "soft", text: "No musical numbers yet." });
  return el("div", {}, night ? total(night) : null, el("ol", { class: "plain night" }, sheet.map((s) => line(s, theirs, s.opening && s.opening.perMinute === undefined ? tempo(s.number) : null))));
}

/** @param {import("../core/types.js").Night} night */
function total(night) {
  const plus = kinds(night.plus.map((p) => p.what));
  const without = night.without.length ? ` Not in it, or only in part: ${night.without.map((n) => (n ? numberNo(n) : "the book")).join(", ")}.` : "";
  return el("p", { class: "soft", id: "night-total", text: `The music lasts ${duration(night.seconds) || "0 s"} as far as known${plus ? `, plus ${plus}` : ""}.${without}` });
}

/**
 * @param {RunSheetLine} sheet
 * @param {import("../shared/theirs.js").TheirBars} theirs
 * @param {HTMLElement|null} tempo where its tempo is said, where it isn't known
 */
function line(sheet, theirs, tempo) {
  const both = (/** @type {string} */ bars) => theirs.both(sheet.number, bars);
  const played = sheet.state === "played";
  const open = (sheet.vamps ?? []).map((v) => el("b", { class: "block", text: [`${v.kind} ${both(v.bars)}${v.pass ? ` ${v.pass}` : ""}`, v.exit ? (EXIT[v.exit] ?? `out ${v.exit}`) : "", v.cue ? `till ${v.cue}` : ""].filter(Boolean).join(", ") }));
  const entrance = sheet.entrance ? `First note: ${both(sheet.entrance)}${sheet.entranceAfter ? `, after ${count(sheet.entranceAfter, "bar")} of rest` : ""}.` : "";
  const facts = [sheet.page ? `page ${sheet.page}` : "", sheet.key ?? "", lengthText(sheet)].filter(Boolean);
  return el(
    "li",
    { class: played ? "item" : "item silent" },
    el("b", { text: numberName({ label: sheet.number, title: sheet.title }) }),
    played ? el("span", { text: opening(sheet) }) : el("span", { class: "chip", text: plain(sheet.state) }),
    facts.length ? el("span", { class: "soft", text: facts.join(" · ") }) : null,
    tempo,
    entrance ? el("span", { text: entrance }) : null,
    sheet.track ? el("b", { class: "block", text: "with a track: nothing waits" }) : null,
    open,
    sheet.cuts?.length ? el("span", { text: `Out: ${sheet.cuts.map(both).join(", ")}` }) : null,
    unsureText(sheet.unsure),
    linkText(sheet.link) ? el("span", { class: "soft small", text: linkText(sheet.link) }) : null,
  );
}

/**
 * How it begins: meter, beats, tempo in the beats that are shown, what is in hand.
 *
 * @param {RunSheetLine} sheet
 */
function opening(sheet) {
  const first = sheet.opening;
  const held = [first?.instrument ?? "", inHand(first?.bow ?? ""), first?.mute ?? ""].filter(Boolean);
  const later = sheet.instruments.filter((i) => i !== first?.instrument);
  const hands = [held.join(", "), ...later].filter(Boolean).join(", then ");
  if (!first) return hands;
  const meter = first.meter ? `${first.meter}${first.beats ? ` in ${first.beats}` : ""}` : "";
  return [meter, first.perMinute === undefined ? "tempo not known" : tempoText(first.meter, first.beats, first.perMinute), hands].filter(Boolean).join(" · ");
}

/**
 * @param {string|undefined} meter
 * @param {number} beats
 * @param {number} perMinute quarters
 */
function tempoText(meter, beats, perMinute) {
  const [upper, lower] = (meter ?? "").split("/").map(Number);
  const beat = upper && lower && beats ? (upper * 4) / lower / beats : 1;
  /** @type {Record<number, string>} */
  const notes = { 0.5: "♪", 1: "♩", 1.5: "♩.", 2: "half", 3: "dotted half" };
  const shown = beat in notes ? beat : 1;
  const figure = perMinute / shown;
  const half = Math.round(figure * 2) / 2;
  return `${notes[shown]} = ${Math.abs(figure - half) < 0.05 ? half : `ca. ${Math.round(figure)}`}`;
}

/** @param {RunSheetLine} sheet */
function lengthText(sheet) {
  const known = duration(sheet.seconds) || knownText(sheet.known) || (sheet.state === "cut" ? "" : "length not known");
  const plus = kinds(sheet.plus ?? []);
  return plus ? `${known} plus ${plus}` : known;
}

/**
 * How many of each: "2 vamps, 1 hold".
 *
 * @param {string[]} plus
 */
function kinds(plus) {
  /** @type {Map<string, number>} */
  const many = new Map();
  for (const what of plus) many.set(what.replace(/ .*/, ""), (many.get(what.replace(/ .*/, "")) ?? 0) + 1);
  return [...many].map(([kind, n]) => count(n, kind, kind.endsWith("y") ? `${kind.slice(0, -1)}ies` : `${kind}s`)).join(", ");
}

/** @param {string} link how the next number follows; where nothing is known there is nothing to say */
function linkText(link) {
  if (link === "unknown") return "";
  return link === "break" ? "Then: no segue" : `Then: ${link.replace(/-/g, " ")}`;
}
