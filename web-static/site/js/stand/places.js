import { ask } from "../core/dialog.js";
import { button, el, show } from "../core/dom.js";
import { barAt } from "./walk.js";

/**
 * Where to go to: a number, a mark in it, or a bar of it; large targets.
 *
 * @param {import("./board.js").Board} board
 * @param {string} at keeps the fields of two forms apart
 * @param {() => void} [gone] told after a jump
 */
export function placeForm(board, at, gone = () => {}) {
  const all = board.places();
  const marks = el("div", { class: "row stand-marks" });
  const said = el("p", { class: "small", role: "status" });
  const number = el("select", { id: `${at}-number` }, all.map((p) => el("option", { value: String(p.night), text: p.name })));
  const bar = el("input", { id: `${at}-bar`, inputmode: "text", autocomplete: "off", maxlength: 12 });
  number.value = String(board.stops[board.place.stop]?.night ?? 0);
  const go = (/** @type {import("./walk.js").Place} */ place, /** @type {string} */ text) => {
    board.go(place);
    said.textContent = `Begins at ${text}.`;
    gone();
  };
  const chosen = () => all.find((p) => String(p.night) === number.value) ?? all[0];
  const draw = () => show(marks, chosen().marks.map((m) => button(m.mark, () => go(m.place, m.mark), { class: "btn stand-mark", "aria-label": `Mark ${m.mark}` })));
  const toBar = () => {
    if (bar.value.trim() === "") return;
    const place = barAt(board.stops, chosen().night, bar.value, board.place);
    if (place) go(place, `bar ${bar.value.trim()}`);
    else said.textContent = `No bar ${bar.value.trim()} is played in ${chosen().name}.`;
  };
  number.addEventListener("change", () => {
    draw();
    go(chosen().place, chosen().name);
  });
  bar.addEventListener("keydown", (event) => {
    if (event.key !== "Enter") return;
    event.preventDefault();
    toBar();
  });
  draw();
  return el(
    "div",
    { class: "stand-places" },
    el("label", { class: "field" }, el("span", { class: "field-label", text: "Number" }), number),
    button("To its beginning", () => go(chosen().place, chosen().name), { class: "btn stand-mark" }),
    marks,
    el("div", { class: "row" }, el("label", { class: "field stand-bar" }, el("span", { class: "field-label", text: "Bar" }), bar), button("To the bar", toBar, { class: "btn stand-mark" })),
    said,
  );
}

/** @param {import("./board.js").Board} board */
export async function choosePlace(board) {
  const close = () => document.querySelector("dialog")?.close();
  await ask("Where are you?", [placeForm(board, "jump", close)]);
}
