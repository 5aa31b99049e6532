import { call } from "../core/api.js";
import { confirm } from "../core/dialog.js";
import { button, el } from "../core/dom.js";
import { icon } from "../core/icons.js";
import { complain, toast } from "../core/toast.js";
import { count } from "../core/words.js";

/** After how many days a book in the bin may go by itself; 0 for never. */
const TIMES = [0, 30, 90, 365];

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
    "Its pages, everything read and corrected on them, and the show's changes are deleted now, where barmap keeps them. This can't be taken back.",
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
 * @param {BinnedBook[]} books
 * @param {() => Promise<void>} changed
 */
async function empty(books, changed) {
  const yes = await confirm(
    books.length === 1 ? "Remove the book in the bin for good?" : `Remove all ${books.length} books in the bin for good?`,
    "Their pages, everything read and corrected on them, and their changes are deleted now, where barmap keeps them, and the space is free again. This can't be taken back.",
    "Empty the bin",
  );
  if (!yes) return;
  try {
    /** @type {import("../core/api.js").Answered<{removed: number}>} */
    const { data } = await call("DELETE", "/api/bin");
    await changed();
    toast(`The bin is empty: ${count(data.removed, "book")} removed for good.`);
  } catch (error) {
    complain(error);
  }
}

/**
 * @param {number|undefined} days now
 * @param {() => Promise<void>} changed
 */
function stay(days, changed) {
  const all = TIMES.includes(days ?? 0) ? TIMES : [...TIMES, days ?? 0];
  const select = el("select", { id: "bin-days" }, all.map((d) => el("option", { value: String(d), text: d ? `after ${count(d, "day")}` : "only when I remove it" })));
  select.value = String(days ?? 0);
  select.addEventListener("change", () => {
    call("PUT", "/api/bin", { body: { days: Number(select.value) || null } }).then(changed, complain);
  });
  return el("label", { class: "row small" }, el("span", { text: "A book in the bin goes for good" }), select);
}

/** @param {BinnedBook} book */
function whenGone(book) {
  return book.goneAt ? `Removed for good on ${day(book.goneAt)}.` : `In the bin since ${day(book.discardedAt)}.`;
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
    el("p", { class: "soft", text: "A book here can be brought back. Removed for good, it is deleted where barmap keeps it, with its pages and everything kept about them." }),
    el("div", { class: "row between" }, stay(days, changed), button("Empty the bin", () => void empty(books, changed), { class: "btn btn-bad", id: "empty-bin" }, icon("bin"))),
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
            el("p", { class: "soft small", text: `${count(book.pages, "page")}. ${whenGone(book)}` }),
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
