import { button, el, svg } from "../core/dom.js";
import { icon } from "../core/icons.js";
import { BARLINE, SIGN } from "../core/words.js";
import { choice, group, stepper } from "./fields.js";
import { barlineSign } from "./signs.js";

/** @typedef {import("../core/types.js").Bar} Bar */
/** @typedef {import("./bar-form.js").Correct} Correct */

/** @param {string} type */
function barlinePicture(type) {
  return svg("svg", { class: "barline-picture", viewBox: "-14 -4 28 32", "aria-hidden": "true" }, barlineSign(type, [0, 2], [0, 22], 6));
}

/**
 * @param {Bar} bar
 * @param {Correct} correct
 * @param {{add: () => void, removeLine: () => void}} tools
 */
export function barlineGroup(bar, correct, tools) {
  const set = (/** @type {import("../core/types.js").Side} */ side) => (/** @type {string} */ type) => correct({ kind: "set-barline", bar: bar.id, side, type });
  const starts = /** @type {[string, string][]} */ ([["none", "None"], ["repeat-start", BARLINE["repeat-start"]]]);
  return group(
    "Barlines",
    el(
      "div",
      { class: "choice" },
      button("Add one in this bar", tools.add, { class: "btn", id: "add-barline" }, icon("barline")),
      button("Remove the one at its end", () => correct({ kind: "remove-barline", bar: bar.id, side: "end" }), { class: "btn", id: "remove-barline" }, icon("bin")),
    ),
    el("p", { class: "group-note", text: "At its end" }),
    choice(Object.entries(BARLINE), bar.endBarline, set("end"), barlinePicture),
    el("p", { class: "group-note", text: "At its start" }),
    choice(starts, bar.startBarline, set("start"), barlinePicture),
    el("p", { class: "group-note", text: "This is no line of music?" }),
    button(`Take out line ${bar.system}`, tools.removeLine, { class: "btn", id: "remove-line" }, icon("bin")),
  );
}

/**
 * @param {Bar} bar
 * @param {Correct} correct
 */
export function signGroup(bar, correct) {
  const endings = bar.ending ?? [];
  const signs = bar.signs ?? [];
  return group(
    "Signs",
    el(
      "div",
      { class: "choice" },
      Object.entries(SIGN).map(([sign, words]) =>
        button(words, () => correct({ kind: "set-sign", bar: bar.id, sign, present: !signs.includes(sign) }), { class: "btn", "aria-pressed": String(signs.includes(sign)), "data-value": sign }),
      ),
    ),
    el("p", { class: "group-note", text: "Under an ending" }),
    el(
      "div",
      { class: "choice" },
      [1, 2, 3, 4].map((n) =>
        button(`${n}.`, () => correct({ kind: "set-ending", bar: bar.id, ending: endings.includes(n) ? endings.filter((e) => e !== n) : [...endings, n].sort() }), { class: "btn", "aria-pressed": String(endings.includes(n)), "aria-label": `Ending ${n}` }),
      ),
    ),
    el("p", { class: "group-note", text: "Played, in all (0: not said)" }),
    stepper({ id: "times", label: "Times played in all", value: bar.times ?? 0, min: 0, max: 99, set: (times) => correct({ kind: "set-times", bar: bar.id, times }) }),
  );
}
