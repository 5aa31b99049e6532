import { button, el } from "../core/dom.js";
import { icon } from "../core/icons.js";
import { count } from "../core/words.js";

/** @typedef {import("../core/types.js").Align} Align */
/** @typedef {import("../core/types.js").AlignPin} AlignPin */
/** @typedef {import("../core/types.js").AlignRow} AlignRow */
/** @typedef {import("../core/types.js").AlignStretch} AlignStretch */
/** @typedef {{here: string, there: string}} Names what the two parts are called */
/** @typedef {{pin: (pin: AlignPin) => Promise<boolean>, unpin: (pin: AlignPin) => void}} Actions */

/**
 * A card for each number: its bars in both parts; those called the same are folded.
 *
 * @param {Align} align
 * @param {Names} names
 * @param {Actions} [actions] none for who may only look
 */
export function numberCards(align, names, actions) {
  const rows = align.table?.numbers ?? [];
  return el(
    "div",
    { class: "align-numbers" },
    rows.map((row, i) => card(row, i, align, names, actions)),
  );
}

/** @param {AlignRow} row */
function says(row) {
  if (row.bars === 0 || row.otherBars === 0) return row.bars === row.otherBars ? "no bars in either" : "no bars in one of them";
  if (row.stretches.some((s) => s.how === "unsure")) return "something is not sure";
  return row.same ? "the same bar numbers" : "other bar numbers";
}

/**
 * @param {AlignRow} row
 * @param {number} i
 * @param {Align} align
 * @param {Names} names
 * @param {Actions} [actions]
 */
function card(row, i, align, names, actions) {
  const pins = (align.pins ?? []).filter((p) => p.number.trim().toLowerCase() === row.number.trim().toLowerCase());
  const different = (align.table?.differences ?? []).filter((d) => d.number === row.number && d.kind !== "bars");
  const unsure = row.stretches.some((s) => s.how === "unsure");
  const name = row.number ? `No. ${row.number}${row.title ? ` ${row.title}` : ""}` : row.title || "The book";
  return el(
    "details",
    { class: "card save align-number", id: `align-${i}`, open: !row.same },
    el("summary", {}, el("span", { class: "align-head" }, el("span", { class: "align-name", text: name }), el("span", { class: unsure ? "align-open" : "soft small" }, unsure ? icon("doubt") : null, ` ${says(row)}`))),
    table(row, names),
    different.length ? el("ul", { class: "small align-different" }, different.map((d) => el("li", { text: d.text }))) : null,
    pins.length ? el("ul", { class: "plain align-pins" }, pins.map((pin) => pinned(pin, names, actions))) : null,
    actions && row.bars && row.otherBars ? pinForm(row, i, names, actions) : null,
  );
}

/**
 * @param {AlignRow} row
 * @param {Names} names
 */
function table(row, names) {
  return el(
    "table",
    { class: "align-table" },
    el("thead", {}, el("tr", {}, el("th", { scope: "col", text: names.here }), el("th", { scope: "col", text: names.there }), el("th", { scope: "col", text: "" }))),
    el("tbody", {}, row.stretches.map((s) => line(s))),
  );
}

/** @param {AlignStretch} s what is said beside it */
function note(s) {
  if (s.how === "unsure") return `not sure which is which: ${count(s.bars, "bar")} here, ${s.otherBars} there`;
  if (s.how === "only-here") return `${count(s.bars, "bar")}, not in the other part`;
  if (s.how === "only-there") return `${count(s.otherBars, "bar")}, not in this part`;
  return `${count(s.bars, "bar")}${s.how === "same" ? ", the same" : ""}`;
}

/** @param {AlignStretch} s */
function line(s) {
  return el(
    "tr",
    { class: `align-${s.how}` },
    el("td", { class: "align-bars", text: span(s.first, s.last) }),
    el("td", { class: "align-bars", text: span(s.otherFirst, s.otherLast) }),
    el("td", { class: "soft small" }, s.how === "unsure" ? icon("doubt") : null, note(s)),
  );
}

/**
 * @param {string} [first]
 * @param {string} [last]
 */
function span(first, last) {
  if (first === undefined || last === undefined) return "–";
  return first === last ? first : `${first} to ${last}`;
}

/**
 * @param {AlignPin} pin
 * @param {Names} names
 * @param {Actions} [actions]
 */
function pinned(pin, names, actions) {
  return el(
    "li",
    { class: "row" },
    el("span", {}, actions ? "You said: " : "Said by hand: ", el("b", { text: pin.here }), ` in ${names.here} is `, el("b", { text: pin.there }), ` in ${names.there}`),
    actions ? button("Take back", () => actions.unpin(pin), { class: "btn btn-quiet", "aria-label": `Take back: ${pin.here} is ${pin.there}` }) : null,
  );
}

/**
 * @param {AlignRow} row
 * @param {number} i
 * @param {Names} names
 * @param {Actions} actions
 */
function pinForm(row, i, names, actions) {
  const here = el("input", { name: "here", id: `pin-here-${i}`, required: true, maxlength: 60, autocomplete: "off", size: 6 });
  const there = el("input", { name: "there", id: `pin-there-${i}`, required: true, maxlength: 60, autocomplete: "off", size: 6 });
  const form = el(
    "form",
    { class: "align-pin" },
    el("label", { for: here.id, text: `Bar of ${names.here}` }),
    here,
    el("label", { for: there.id, text: `is bar of ${names.there}` }),
    there,
    el("button", { type: "submit", class: "btn", text: "They are the same" }),
  );
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    void actions.pin({ number: row.number, here: here.value.trim(), there: there.value.trim() });
  });
  return form;
}
