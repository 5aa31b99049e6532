import { el } from "../core/dom.js";
import { numberNo, when } from "../core/words.js";

/**
 * Words kept as they were said, each with its number, bar and day.
 *
 * @param {import("../core/types.js").KeptNote[]} notes
 */
export function noteList(notes) {
  if (notes.length === 0) return null;
  return el(
    "section",
    { "aria-label": "Notes" },
    el("h2", { text: "Notes" }),
    el(
      "ul",
      { class: "plain" },
      notes.map((note) =>
        el(
          "li",
          { class: "item" },
          el("b", { text: [note.number ? numberNo(note.number) : "The show", note.bar ? `bar ${note.bar}` : "", note.errata ? "misprint" : ""].filter(Boolean).join(", ") }),
          el("span", { text: note.text }),
          note.when ? el("span", { class: "soft small", text: when(note.when) }) : null,
        ),
      ),
    ),
  );
}
