import { later } from "../core/clock.js";
import { button, el } from "../core/dom.js";
import { count, meterSaid } from "../core/words.js";

/** @typedef {import("../core/types.js").Finding} Finding */
/** @typedef {import("../core/types.js").Correction} Correction */
/** @typedef {import("../core/types.js").Consequence} Consequence */

/** How long typing is waited for before what follows from it is asked. */
const PAUSE_MS = 350;

/**
 * What an answer would change, in a line.
 *
 * @param {Consequence} c
 */
export function followsText(c) {
  if (c.refused?.length) return `Can't be: ${c.refused.join(" ")}`;
  const bars = c.bars ? (c.bars > 0 ? `${count(c.bars, "bar")} more` : `${count(-c.bars, "bar")} fewer`) : "";
  const numbers = c.renumbered ? `${count(c.renumbered, "bar")} renumbered, from ${c.first}` : "no number changes";
  const left = c.left ? `${count(c.left, "doubt")} left` : "no doubt left";
  const raised = c.raised?.length ? `then asked: ${c.raised[0]}` : "";
  return [bars, numbers, left, raised].filter(Boolean).join(" · ");
}

/** @type {WeakMap<Element, () => void>} */
const waiting = new WeakMap();
const watcher = new IntersectionObserver((entries) => {
  for (const entry of entries) {
    const run = entry.isIntersecting ? waiting.get(entry.target) : undefined;
    if (!run) continue;
    watcher.unobserve(entry.target);
    waiting.delete(entry.target);
    run();
  }
});

/**
 * Runs something when an element comes into view, once.
 *
 * @param {Element} node
 * @param {() => void} run
 */
export function whenSeen(node, run) {
  waiting.set(node, run);
  watcher.observe(node);
}

/** @typedef {{label: string, hint: string, mean: (text: string) => Correction|undefined}} Field what can be typed, and what is meant by it */

/** @type {(bar: string) => Field} */
const mark = (bar) => ({ label: "The mark is", hint: "A, B, 17 …", mean: (text) => ({ kind: "set-rehearsal", bar, text, enclosure: "box" }) });

/** @type {(bar: string) => Field} */
const meter = (bar) => ({
  label: "The time signature is", hint: "4/4",
  mean: (text) => {
    const said = meterSaid(text);
    return said && { kind: "set-meter", bar, ...said };
  },
});

/** @type {(bar: string) => Field} */
const musicalNumber = (bar) => ({ label: "The number is", hint: "7", mean: (text) => ({ kind: "start-number", bar, label: text, title: "" }) });

/** @type {(bar: string) => Field} */
const rest = (bar) => ({ label: "Bars of rest", hint: "8", mean: (text) => (/^[1-9]\d{0,3}$/.test(text) ? { kind: "set-content", bar, content: text === "1" ? "rest" : "multi-rest", count: Number(text) } : undefined) });

/** Whatever is asked at a bar, it is the number of the bar that the counting goes on from. @type {(bar: string) => Field} */
const called = (bar) => ({ label: "This bar is called", hint: "34, 24A", mean: (text) => (/^\d{1,5}$/.test(text) ? { kind: "set-number", bar, number: Number(text) } : { kind: "set-label", bar, label: text }) });

/** By how the kinds of doubts begin. @type {[begins: string, field: (bar: string) => Field][]} */
const FIELDS = [
  ["mark", mark], ["second-mark", mark], ["meter", meter], ["number-start", musicalNumber], ["order", musicalNumber],
  ["count", rest], ["content", rest], ["second-number", called], ["second", rest], ["", called],
];

/**
 * What can be typed when none of the answers is right.
 *
 * @param {Finding} doubt
 * @returns {Field|undefined} nothing where it is about a whole page, which can only be shown
 */
function wanted({ bar, code }) {
  return bar ? FIELDS.find(([begins]) => code.startsWith(begins))?.[1](bar) : undefined;
}

/** @param {Finding} doubt @returns {import("../core/types.js").Answer[]} those that are always worth offering, though nobody thought of them in reading */
export function answersBesides({ bar, code, answers }) {
  const music = code.startsWith("count") && bar && !answers?.some((a) => a.correction?.content === "music");
  return music ? [{ label: "It is music", correction: { kind: "set-content", bar, content: "music", count: "1" } }] : [];
}

/**
 * "None of these", with a field where one fits; what is typed shows what it would change.
 *
 * @param {Finding} doubt
 * @param {(c: Correction) => void} take
 * @param {(list: Correction[]) => Promise<Consequence[]>} check
 * @param {() => void} show opens the bar, or the page, with all its fields
 */
export function otherAnswer(doubt, take, check, show) {
  const field = wanted(doubt);
  const place = button(doubt.bar ? "Open the bar" : "Show the page", show, { class: "btn btn-quiet" });
  if (!field) return el("div", { class: "other" }, el("span", { class: "small", text: "None of these: " }), place);
  const input = el("input", { class: "other-field", "aria-label": field.label, placeholder: field.hint, autocomplete: "off", maxlength: 20 });
  const follows = el("span", { class: "follows soft small", "aria-live": "polite" });
  const said = () => {
    const text = input.value.trim();
    const made = text ? field.mean(text) : undefined;
    const wrong = Boolean(text) && !made;
    input.setAttribute("aria-invalid", String(wrong));
    if (wrong) follows.textContent = `That is not understood. Write it like this: ${field.hint}`;
    return made;
  };
  const go = button("Take this", () => {
    const made = said();
    if (made) take(made);
    else input.focus();
  }, { class: "btn" });
  let callOff = () => {};
  input.addEventListener("input", () => {
    callOff();
    callOff = later(PAUSE_MS, () => {
      const made = said();
      if (made) void check([made]).then(([found]) => (follows.textContent = followsText(found)), () => (follows.textContent = ""));
      else if (!input.value.trim()) follows.textContent = "";
    });
  });
  input.addEventListener("keydown", (event) => {
    if (event.key === "Enter") go.click();
  });
  return el(
    "div",
    { class: "other" },
    el("label", { class: "other-line" }, el("span", { class: "small", text: `None of these. ${field.label}` }), input),
    go,
    place,
    follows,
  );
}
