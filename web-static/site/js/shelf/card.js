import { el } from "../core/dom.js";
import { icon, signButton } from "../core/icons.js";
import { count } from "../core/words.js";

/** @typedef {import("../core/types.js").BookInfo} BookInfo */

/** @param {BookInfo} book */
function chips(book) {
  const pages = book.pages;
  const verified = book.verifiedPages;
  const list = [];
  if (book.job && ["waiting", "running"].includes(book.job.state)) {
    list.push(el("span", { class: "chip", text: book.job.text || "Reading …" }));
  } else if (pages === 0) {
    list.push(el("span", { class: "chip", text: "No pages yet" }));
  } else if (book.state === "verified") {
    list.push(el("span", { class: "chip chip-good" }, icon("tick"), "Checked"));
  } else {
    list.push(el("span", { class: "chip", text: `${verified} of ${count(pages, "page")} checked` }));
  }
  if (book.doubts) {
    list.push(el("span", { class: "chip chip-doubt" }, icon("doubt"), count(book.doubts, "doubt")));
  }
  return list;
}

/** @param {BookInfo} book */
function progress(book) {
  const pages = book.pages;
  if (!pages) return null;
  const share = Math.round((100 * book.verifiedPages) / pages);
  const fill = el("span");
  fill.style.width = `${share}%`;
  return el("div", { class: "meterbar", role: "img", "aria-label": `${share} % of the pages are checked` }, fill);
}

/**
 * One book on the shelf.
 *
 * @param {BookInfo} book
 * @param {{remove: () => void, rename: () => void}} actions
 */
export function bookCard(book, actions) {
  const pages = book.pages;
  const name = `${book.title}, ${book.part}`;
  const to = (/** @type {string} */ room) => `/${room}.html?b=${encodeURIComponent(book.id)}`;
  return el(
    "li",
    { class: "card book" },
    el("h2", {}, el("a", { href: to("book"), text: book.title })),
    el("p", { class: "part", text: book.part }),
    el("p", { class: "soft small", text: pages ? `${count(pages, "page")}, ${count(book.bars, "bar")}` : "Add pages to begin." }),
    el("div", { class: "row" }, chips(book)),
    progress(book),
    el(
      "div",
      { class: "row foot" },
      pages
        ? el("a", { class: "btn", href: to(book.state === "verified" ? "turns" : "desk"), text: book.state === "verified" ? "Turns" : "Go on correcting" })
        : el("a", { class: "btn", href: to("book"), text: "Add pages" }),
      signButton("pencil", "Rename", actions.rename, { "aria-label": `Rename ${name}` }),
      signButton("bin", "Bin", actions.remove, { "aria-label": `Put ${name} in the bin` }),
    ),
  );
}
