import { call } from "../core/api.js";
import { confirm } from "../core/dialog.js";
import { button, el } from "../core/dom.js";
import { icon } from "../core/icons.js";
import { complain, toast } from "../core/toast.js";
import { count } from "../core/words.js";

/** @typedef {import("../core/types.js").Bin} Bin */
/** @typedef {import("../core/types.js").BinnedBook} BinnedBook */

/** @param {string} moment */
function day(moment) {
  return new Date(moment).toLocaleDateString(undefined, { day: "numeric", month: "long", year: "numeric" });
}

/**
 * @param {BinnedBook} book
 * @param {() => Promise<void>} changed
 */
async function restore(book, changed) {
  try {
    await call("POST", `/api/books/${encodeURIComponent(book.id)}/restore`);
    await changed();
  } catch (error) {
    complain(error);
  }
}

/**
 * @param {BinnedBook} book
 * @param {() => Promise<void>} changed
 */
async function remove(book, changed) {
  const name = `${book.title}, ${book.part}`;
  const yes = await confirm(
    `Remove ${name} for good?`,
    "Its pages, everything read and corrected on them, and the show's changes are deleted from this machine now. This can't be taken back.",
    "Remove for good",
  );
  if (!yes) return;
  try {
    await call("DELETE", `/api/bin/${encodeURIComponent(book.id)}`);
    await changed();
    toast(`${name} is removed for good.`);
  } catch (error) {
    complain(error);
  }
}

/**
 * The books in the bin; nothing while it is empty.
 *
 * @param {Bin} bin
 * @param {() => Promise<void>} changed called after a book was brought back or removed
 */
export function binList({ days, books }, changed) {
  if (books.length === 0) return null;
  return el(
    "section",
    { class: "bin", "aria-labelledby": "bin-title" },
    el("h2", { id: "bin-title", text: "The bin" }),
    el("p", { class: "soft", text: `A book can be brought back for ${count(days, "day")}. After that it is removed from this machine for good, with its pages and everything kept about them.` }),
    el(
      "ul",
      { class: "binned" },
      books.map((book) =>
        el(
          "li",
          { class: "card row between" },
          el(
            "div",
            {},
            el("h3", { text: `${book.title}, ${book.part}` }),
            el("p", { class: "soft small", text: `${count(book.pages, "page")}. Removed for good on ${day(book.goneAt)}.` }),
          ),
          el(
            "div",
            { class: "row" },
            button("Bring back", () => void restore(book, changed), { class: "btn", "aria-label": `Bring back ${book.title}, ${book.part}` }),
            button("Remove for good", () => void remove(book, changed), { class: "btn btn-bad", "aria-label": `Remove ${book.title}, ${book.part} for good now` }, icon("bin")),
          ),
        ),
      ),
    ),
  );
}
