import { el } from "../core/dom.js";
import { icon } from "../core/icons.js";
import { recall, remember } from "../core/store.js";
import { count, duration, plain } from "../core/words.js";
import { unsureText } from "./head.js";

/** @typedef {import("./names.js").BarNames} BarNames */
/** @typedef {import("../core/types.js").PencilMark} PencilMark */

/**
 * @param {string} book
 * @param {import("../core/types.js").LongRest[]} rests
 * @param {BarNames} names
 */
export function restList(book, rests, names) {
  if (rests.length === 0) return el("p", { class: "soft", text: "No long rests." });
  return el(
    "ul",
    { class: "plain" },
    rests.map((rest) =>
      el(
        "li",
        { class: "item" },
        el("b", { text: `${count(rest.bars, "bar")} of rest` }),
        el("span", { class: "soft", text: [names.span(rest.first, rest.last), rest.page ? `page ${rest.page}` : "", duration(rest.seconds)].filter(Boolean).join(" · ") }),
        rest.text ? el("span", { text: rest.text }) : null,
        unsureText(rest.unsure),
        rest.landmarks.length
          ? el("ul", { class: "landmarks" }, rest.landmarks.map((l) => el("li", {}, el("b", { text: `after ${count(l.after, "bar")}` }), `: ${l.what}`)))
          : null,
        el("a", { class: "btn", href: `/practice.html?b=${encodeURIComponent(book)}#${encodeURIComponent(rest.first)}`, text: "Count it" }),
      ),
    ),
  );
}

/**
 * @param {import("../core/types.js").InstrumentChange[]} list
 * @param {BarNames} names
 */
export function instrumentList(list, names) {
  if (list.length === 0) return el("p", { class: "soft", text: "No change of instrument." });
  return el(
    "ul",
    { class: "plain" },
    list.map((change) => {
      const early = change.seconds === undefined && change.verdict === "time" && !change.because;
      const time = early ? "before the number" : change.seconds === undefined ? `time not known${change.because ? `: ${change.because}` : ""}` : `${change.seconds < 0.05 ? "no time" : duration(change.seconds)} to change${change.needed ? `, ${change.needed} s needed` : ""}`;
      return el(
        "li",
        { class: "item" },
        el("b", { text: (change.from ? [change.from, change.to] : [change.to]).map(inHand).join(" → ") }),
        el("span", { class: "soft", text: names.long(change.at) }),
        el("span", {}, icon(change.verdict === "time" ? "tick" : change.verdict === "unknown" ? "doubt" : "warn"), ` ${time}`),
        change.text ? el("span", { class: "soft small", text: change.text }) : null,
        unsureText(change.unsure),
      );
    }),
  );
}

/** @param {string} word */
function inHand(word) {
  return word === "pizz" ? "pizz." : word;
}

/**
 * The marks to write, by page, each with a tick; the ticks stay on this machine.
 *
 * @param {string} book
 * @param {PencilMark[]} marks
 * @param {BarNames} names
 * @param {"pencil"|"erase"} kind
 */
export function markList(book, marks, names, kind) {
  if (marks.length === 0) return el("p", { class: "soft", text: "Nothing to write." });
  const key = `${kind}.${book}`;
  const done = new Set(recall(key, /** @type {string[]} */ ([])));
  const note = el("p", { class: "soft", "aria-live": "polite" });
  const say = () => (note.textContent = `${marks.filter((m) => done.has(markKey(m))).length} of ${marks.length} ${kind === "pencil" ? "written" : "erased"}`);
  const items = marks.map((mark) => {
    const id = markKey(mark);
    const box = el("input", { type: "checkbox", checked: done.has(id) });
    box.addEventListener("change", () => {
      if (box.checked) done.add(id);
      else done.delete(id);
      remember(key, [...done]);
      say();
    });
    const where = [`Page ${mark.page}`, mark.system ? `line ${mark.system}` : "", names.long(mark.bar)].filter(Boolean).join(", ");
    return el("li", { class: "item" }, el("label", { class: "tick-line" }, box, el("span", {}, el("b", { text: mark.sign ?? plain(mark.mark) }), el("span", { class: "soft small block", text: where }), mark.unsure?.length ? el("span", { class: "soft small block", text: `Not checked: ${mark.unsure.join("; ")}` }) : null)));
  });
  say();
  return el("div", {}, note, el("ul", { class: "plain" }, items));
}

/** @param {PencilMark} mark */
function markKey(mark) {
  return [mark.page, mark.bar, mark.mark].join("/");
}
