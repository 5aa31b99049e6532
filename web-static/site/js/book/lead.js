import { el } from "../core/dom.js";
import { icon } from "../core/icons.js";
import { mayCorrect } from "../core/may.js";
import { count, toCheck } from "../core/words.js";

/** @typedef {import("../core/types.js").PageInfo} PageInfo */

const BEGIN = "First the pages: photographs or scans, in the order of the book. They are read, you look them over, and then turns, rests and the show's changes are worked out.";

/**
 * What comes next with a book: one sentence on where it stands, and the way on.
 *
 * @param {string} id
 * @param {import("../core/types.js").Book} book
 */
export function lead(id, book) {
  const { pages } = book;
  const read = pages.filter((p) => p.state === "read" || p.state === "verified");
  // a book opened from a file may have bars without pictures
  if (read.length === 0 && book.bars === 0) return begins(pages);
  const open = pages.find((p) => p.state === "read");
  const checked = read.filter((p) => p.state === "verified").length;
  const failed = pages.filter((p) => p.state === "failed").map((p) => p.index);
  const stands = [
    checked === pages.length && checked ? "All pages are checked" : read.length ? `${checked} of ${count(pages.length, "page")} checked` : "",
    book.doubts ? `${count(book.doubts, "doubt")} open` : "",
    failed.length ? `page ${failed.join(", ")} could not be read` : "",
  ].filter(Boolean).join(", ");
  return el("div", {}, stands ? el("p", { class: "lead-text", text: `${stands}.` }) : null, el("div", { class: "row" }, open ? toDesk(id, open, pages) : onwards(id)));
}

/** @param {PageInfo[]} pages of a book without bars */
function begins(pages) {
  if (!mayCorrect()) return el("p", { class: "lead-text", text: "There are no pages to look at yet." });
  return pages.length ? null : el("p", { class: "lead-text", text: BEGIN });
}

/**
 * @param {string} id
 * @param {PageInfo} open the first page that nobody has checked
 * @param {PageInfo[]} pages
 */
function toDesk(id, open, pages) {
  const desk = `/desk.html?b=${encodeURIComponent(id)}`;
  const most = mostToCheck(pages.filter((p) => p.state === "read"));
  return [
    el("a", { class: "btn btn-main", href: `${desk}&p=${open.index}`, text: `${mayCorrect() ? "Correct" : "Look at"} page ${open.index}` }),
    most && most !== open ? el("a", { class: "btn", href: `${desk}&p=${most.index}`, text: `Page ${most.index} needs you most: ${toCheck(most.expectedWrong)}` }) : null,
    el("a", { class: "btn btn-quiet", href: desk, "data-for": "corrector" }, icon("doubt"), "What matters most first"),
  ];
}

/** @param {string} id of a book of which all pages are checked */
function onwards(id) {
  const to = (/** @type {string} */ room, /** @type {string} */ text, /** @type {string} */ kind) => el("a", { class: `btn ${kind}`, href: `/${room}.html?b=${encodeURIComponent(id)}`, text });
  return [to("turns", "On to the turns", "btn-main"), to("road", "What the show changes", ""), to("stand", "To the stand", "")];
}

/**
 * The page where a look pays most, when one stands out.
 *
 * @param {PageInfo[]} pages
 */
function mostToCheck(pages) {
  const wrong = (/** @type {PageInfo} */ p) => p.expectedWrong ?? 0;
  const [first, second] = [...pages].sort((a, b) => wrong(b) - wrong(a));
  return first && wrong(first) >= 1 && wrong(first) > (second ? wrong(second) : 0) ? first : undefined;
}
