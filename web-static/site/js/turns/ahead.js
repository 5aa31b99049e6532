import { el } from "../core/dom.js";

/** What the print says, or what follows from it; all else the show changes. */
const PRINTED = ["page-start", "odd-bar", "meter", "key", "entrance", "hold"];

/**
 * What to know before it comes.
 *
 * @param {import("../core/types.js").LookAhead[]} list
 * @param {import("./names.js").BarNames} names
 */
export function aheadList(list, names) {
  if (list.length === 0) return el("p", { class: "soft", text: "Nothing lies in wait." });
  const numbers = [...new Set(list.map((trap) => trap.number))];
  return el(
    "div",
    { class: "ahead" },
    numbers.map((label) =>
      el(
        "section",
        {},
        el("h2", { text: names.number(label) }),
        el(
          "ul",
          { class: "ahead-list" },
          list
            .filter((trap) => trap.number === label)
            .sort((a, b) => names.place(a.bar) - names.place(b.bar))
            .map((trap) => el("li", {}, el("span", { class: "soft small", text: `p. ${trap.page}` }), el("span", { class: PRINTED.includes(trap.kind) ? "" : "of-show", "data-ahead": trap.kind, text: trap.text }))),
        ),
      ),
    ),
  );
}
