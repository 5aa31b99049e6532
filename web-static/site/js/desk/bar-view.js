import { confirm } from "../core/dialog.js";
import { button, el } from "../core/dom.js";
import { icon } from "../core/icons.js";
import { CORRECTORS, mayCorrect } from "../core/may.js";
import { bookInAddress } from "../core/shell.js";
import { count, toCheck } from "../core/words.js";
import { waitsSign } from "../shared/waits.js";
import { barForm } from "./bar-form.js";
import { writtenList } from "./written.js";

/** @typedef {import("../core/types.js").Bar} Bar */
/** @typedef {import("../core/types.js").Correction} Correction */
/** @typedef {import("./model.js").DeskModel} DeskModel */

/**
 * What the panel says of the chosen bar, or of the page when none is chosen.
 *
 * @param {DeskModel} model
 * @param {{bar: Bar|undefined, index: number, folds: Set<string>, hand: {marked: Set<string>, more: boolean}, correct: (c: Correction) => void, act: (run: string) => void}} here
 */
export function barView(model, { bar, index, folds, hand, correct, act }) {
  if (!bar) return pageView(model, index, act);
  const within = model.numberOf(bar);
  const starts = within?.firstBar === bar.id ? within : undefined;
  const removeLine = async () => {
    const sure = await confirm(`Take out line ${bar.system}?`, "Its bars and what was said of them are taken out with it. It can be taken back.", "Take it out");
    if (sure) correct({ kind: "remove-system", page: bar.page, system: bar.system });
  };
  const form = barForm(bar, { number: within, starts }, correct, { add: () => act("add"), removeLine: () => void removeLine(), act }, folds);
  form.querySelector(".bar-title")?.after(manyBars(hand, act));
  if (bar.waits) form.prepend(waitsSign());
  // a reader sees what a bar says, in fields that stay as they are
  if (!mayCorrect()) for (const control of form.querySelectorAll("input, select, textarea, button")) control.setAttribute("disabled", "");
  return form;
}

/**
 * How many bars are chosen, and the way to more of them without a key to hold.
 *
 * @param {{marked: Set<string>, more: boolean}} hand
 * @param {(run: string) => void} act
 */
function manyBars({ marked, more }, act) {
  const said = marked.size > 1 ? `${count(marked.size, "bar")} are chosen: what you say here is said of each of them.` : more ? "Tap the other bars." : "";
  return el(
    "div",
    { class: "many-bars row", ...CORRECTORS },
    said ? el("p", { class: "small", text: said }) : null,
    button(more || marked.size > 1 ? "This one only" : "More bars like this", () => act("more"), { class: "btn btn-quiet", id: "more-bars", "aria-pressed": String(more) }),
  );
}

/**
 * @param {DeskModel} model
 * @param {number} index
 * @param {(run: string) => void} act
 */
function pageView(model, index, act) {
  const page = model.map.pages.find((p) => p.index === index);
  const wrong = model.pageState(index) === "read" ? toCheck(page?.expectedWrong) : "";
  const bars = model.barsOn(index).reduce((n, b) => n + b.count, 0);
  return el(
    "div",
    { class: "empty" },
    el("p", { text: `Page ${index}: ${count(page?.systems.length ?? 0, "line")}, ${count(bars, "bar")}${wrong ? `; ${wrong}` : ""}.` }),
    el("p", { class: "soft", text: "Tap a bar, or press an arrow key, to choose one." }),
    button("A line of music was missed", () => act("line"), { class: "btn", id: "add-line", ...CORRECTORS }, icon("plus")),
    el("p", { class: "field-hint", ...CORRECTORS, text: "Then draw over it, from its top line at the left to its bottom line at the right." }),
    writtenList(bookInAddress(), page, model.barsOn(index), (bar) => model.numberOf(bar)?.label ?? ""),
  );
}
