import { bookPath, call } from "../core/api.js";
import { ask } from "../core/dialog.js";
import { button, el } from "../core/dom.js";
import { complain, toast } from "../core/toast.js";
import { count } from "../core/words.js";
import { takeChanges } from "../shared/taking.js";

/** @typedef {import("../core/types.js").Carried} Carried */

/**
 * Changes from one part into the other, in its own bar numbers.
 *
 * @param {string} book
 * @param {{id: string, name: string}} other
 * @param {string} part what this one is called
 */
export function carryCard(book, other, part) {
  const go = (/** @type {"here"|"there"} */ to) => void carry(book, other, part, to).catch(complain);
  return el(
    "section",
    { class: "card", id: "align-carry", "aria-label": "Changes" },
    el("h2", { text: "Changes in the other part's numbers" }),
    el("p", { class: "soft small", text: "You see them line by line before any is taken. What has no sure place in the other part is named, not guessed." }),
    el(
      "div",
      { class: "row" },
      button(`Bring changes of ${other.name} into ${part}`, () => go("here"), { id: "carry-here" }),
      button(`Give changes of ${part} to ${other.name}`, () => go("there"), { id: "carry-there" }),
    ),
  );
}

/**
 * @param {string} book
 * @param {{id: string, name: string}} other
 * @param {string} part
 * @param {"here"|"there"} to
 */
async function carry(book, other, part, to) {
  /** @type {import("../core/api.js").Answered<Carried>} */
  const { data } = await call("POST", bookPath(book, "/align/carry"), { body: { to } });
  const from = to === "here" ? other.name : part;
  if (data.changes.length === 0 && data.left.length === 0) return void toast(`${from} has no changes.`);
  if (data.left.length) {
    const go = await ask(
      `${count(data.left.length, "change")} can't be carried`,
      [el("ul", { class: "taken" }, data.left.map((l) => el("li", { class: "align-left" }, l.says, el("span", { class: "soft small block", text: l.why }))))],
      data.changes.length ? { yes: `See the other ${data.changes.length}` } : {},
    );
    if (!go) return;
  }
  const { format, changes } = data;
  await takeChanges(to === "here" ? book : other.id, `the changes of ${from}`, { format, changes });
}
