import { el } from "../core/dom.js";
import { CORRECTORS } from "../core/may.js";

/**
 * Says of a book without bars what comes first.
 *
 * @param {string} book
 * @param {string} text
 */
export function nothingYet(book, text) {
  return el("div", { class: "waiting" }, el("p", { text }), el("a", { class: "btn btn-main", ...CORRECTORS, href: `/book.html?b=${encodeURIComponent(book)}`, text: "Add pages" }));
}
