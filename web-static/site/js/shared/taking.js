import { bookPath, call } from "../core/api.js";
import { ask } from "../core/dialog.js";
import { el } from "../core/dom.js";
import { toast } from "../core/toast.js";
import { count } from "../core/words.js";

/** @typedef {{change: object, says: string, here: boolean, on: boolean}} Told a change of a file; here: the book has it; on: not switched off */

/** A list of changes is small; what is larger is a book. */
const MOST_CHANGES = 4 << 20;

/**
 * @param {File} file
 * @returns {Promise<{changes: unknown[]}|undefined>} what it says, where it is a list of changes
 */
export async function changesIn(file) {
  if (file.size > MOST_CHANGES) return undefined;
  try {
    const said = JSON.parse(await file.text());
    return said?.format === "changes/1" && Array.isArray(said.changes) ? said : undefined;
  } catch {
    return undefined; // the service says what is wrong with it
  }
}

/**
 * Reads a section mate's changes back, one line each, and takes those that are ticked into a book.
 *
 * @param {string} book
 * @param {string} name of the file
 * @param {object} said
 * @returns {Promise<number>} how many were taken
 */
export async function takeChanges(book, name, said) {
  /** @type {import("../core/api.js").Answered<{changes: Told[]}>} */
  const { data } = await call("POST", bookPath(book, "/changes/read"), { body: said });
  const fresh = data.changes.filter((c) => !c.here);
  if (fresh.length === 0) {
    toast(`Nothing in ${name} is new: the book has ${data.changes.length === 1 ? "it" : "all of it"}.`);
    return 0;
  }
  const lines = data.changes.map((told, i) =>
    el(
      "li",
      {},
      el(
        "label",
        { class: "tick-line" },
        el("input", { type: "checkbox", name: "take", value: i, checked: !told.here, disabled: told.here }),
        el("span", {}, told.says, told.here ? el("span", { class: "soft small", text: " (the book has it)" }) : null, told.on ? null : el("span", { class: "soft small", text: " (switched off)" })),
      ),
    ),
  );
  const answer = await ask(
    `${count(data.changes.length, "change")} in ${name}`,
    [el("p", { class: "soft", text: "Read them before you take them. They are added to those the book has, with their dates and names, in one step that can be taken back; nothing here is replaced." }), el("ul", { class: "taken" }, lines)],
    { yes: "Take them in" },
  );
  const wanted = (answer?.getAll("take") ?? []).map((i) => data.changes[Number(i)].change);
  if (wanted.length === 0) return 0;
  const { revision } = await call("GET", bookPath(book, "/changes"));
  await call("POST", bookPath(book, "/changes/open"), { body: { format: "changes/1", changes: wanted }, match: revision });
  toast(`${count(wanted.length, "change")} added.`, { kind: "good" });
  return wanted.length;
}
