import { button, el, svg } from "../core/dom.js";
import { CORRECTORS } from "../core/may.js";
import { numberName, numberNo } from "../core/words.js";

/** @typedef {import("../core/types.js").PagePlace} PagePlace */
/** @typedef {import("../core/types.js").PageInfo} PageInfo */

/** So many missing pages are drawn one by one. */
const MOST_GONE = 4;

/**
 * One place where a page can lie, with the page that lies there; without one where it is missing or there is none.
 *
 * @typedef {{page?: PagePlace, gone?: boolean}} Leaf
 * @typedef {{left: Leaf, right: Leaf}} Opening
 */

/** @param {PagePlace} page how many pages lie before it as the book lies open, an opening being two */
function placeOf(page) {
  return page.opening * 2 + (page.side === "right" ? 1 : 0);
}

/**
 * The book as it lies: openings from front to back, with the places of pages that are missing.
 *
 * @param {PagePlace[]} pages bound or laid in, their sides known or taken for known
 * @returns {Opening[]}
 */
export function openingsOf(pages) {
  /** @type {Map<number, Leaf>} */
  const places = new Map();
  pages.forEach((page, i) => {
    const place = placeOf(page);
    const bound = i > 0 && page.leaf === "bound" && pages[i - 1].leaf === "bound"; // beside a leaf laid in a blank side is none that is missing
    const before = bound ? placeOf(pages[i - 1]) + 1 : place;
    for (let gone = before; gone < place && gone < before + MOST_GONE; gone++) places.set(gone, { gone: true });
    places.set(place, { page });
  });
  const openings = [...new Set([...places.keys()].map((p) => Math.floor(p / 2)))].sort((a, b) => a - b);
  return openings.map((o) => ({ left: places.get(o * 2) ?? {}, right: places.get(o * 2 + 1) ?? {} }));
}

/**
 * Where nothing says how the pages lie the plan goes by an assumption, and so does the drawing.
 *
 * @param {PagePlace[]} pages
 * @returns {PagePlace[]}
 */
function sided(pages) {
  return pages.map((page, i) => {
    if (page.side !== "unknown") return page;
    const second = pages[i - 1]?.opening === page.opening;
    const alone = pages[i + 1]?.opening !== page.opening && !second;
    return { ...page, side: second || (alone && i === 0) ? "right" : "left" };
  });
}

/**
 * The openings of the book as a strip, with what lies loose.
 *
 * @param {PagePlace[]} pages
 * @param {object} how
 * @param {PageInfo[]} how.book
 * @param {import("../core/types.js").RoadNumber[]} how.numbers
 * @param {string|undefined} how.firstPage what the player said of the first page
 * @param {() => void} how.flip
 * @param {(page: PagePlace) => void} how.leaf
 */
export function openingStrip(pages, { book, numbers, firstPage, flip, leaf }) {
  if (pages.length < 2) return null;
  const bound = sided(pages.filter((p) => p.leaf !== "loose"));
  const loose = pages.filter((p) => p.leaf === "loose");
  const single = firstPage === "single-sheets";
  const state = new Map(book.map((p) => [p.index, p.state]));
  const starts = (/** @type {number} */ page) => numbers.filter((n) => n.bars[0]?.page === page).map((n) => n.label).filter(Boolean);
  const box = (/** @type {PagePlace} */ page) => pageButton(page, state.get(page.page) ?? "", starts(page.page), leaf);
  const gone = openingsOf(bound).flatMap((o) => [o.left, o.right]).filter((l) => l.gone).length;
  const words = [
    single ? "Single sheets, nothing is bound." : bound[0]?.side === "left" ? "The first page is a left-hand page." : "The first page is a right-hand page.",
    pages[0]?.side === "unknown" && !single ? "Nobody has said so yet." : "",
    gone ? `${gone === 1 ? "One page seems" : `${gone} pages seem`} to be missing.` : "",
  ].filter(Boolean).join(" ");
  return el(
    "details",
    { class: "card book-lies", id: "openings", open: innerWidth > 640 },
    el("summary", { text: "The book as it lies" }),
    el("div", { class: "row between" }, el("p", { class: "soft small", text: words }), single ? null : button("Left and right the other way round", flip, { class: "btn", id: "flip-sides", ...CORRECTORS })),
    el("div", { class: "openings", tabindex: 0, role: "group", "aria-label": "Openings, from front to back" }, single ? bound.map((p) => el("div", { class: "lies single" }, box(p))) : openingsOf(bound).map((o) => el("div", { class: "lies" }, half(o.left, box), half(o.right, box))), loose.length ? el("div", { class: "lies beside" }, el("span", { class: "small soft", text: "loose" }), loose.map(box)) : null),
  );
}

/**
 * @param {Leaf} place
 * @param {(page: PagePlace) => HTMLElement} box
 */
function half({ page, gone }, box) {
  if (page) return box(page);
  return gone ? el("span", { class: "leaf-page gone-page", text: "missing" }) : el("span", { class: "leaf-page no-page", "aria-hidden": "true" });
}

/**
 * @param {PagePlace} page
 * @param {string} state
 * @param {string[]} starts labels of the numbers that begin on it
 * @param {(page: PagePlace) => void} leaf
 */
function pageButton(page, state, starts, leaf) {
  const how = page.leaf === "inserted" ? "laid in" : page.leaf === "loose" ? "a loose copy" : page.side === "unknown" ? "" : `${page.side}-hand page`;
  const failed = state === "failed" ? "not read" : "";
  const says = [`Page ${page.page}`, page.folio === undefined ? "" : `printed ${page.folio}`, how, failed, ...starts.map((label) => numberName({ label }))].filter(Boolean).join(", ");
  return el(
    "button",
    { type: "button", class: `leaf-page ${page.leaf}${failed ? " failed-page" : ""}`, "aria-label": says, title: says, "data-leaf": page.page, on: { click: () => leaf(page) } },
    el("b", { text: String(page.page) }),
    page.folio === undefined || page.folio === page.page ? null : el("span", { class: "small", text: `(${page.folio})` }),
    el("span", { class: "small", text: failed || (page.leaf === "inserted" ? "laid in" : starts.length ? `${numberNo(starts[0])}${starts.slice(1).map((l) => `, ${l}`).join("")}` : "") }),
    page.leaf === "inserted" ? svg("svg", { class: "clip", viewBox: "0 0 10 20", "aria-hidden": "true" }, svg("path", { d: "M3 4v10a2 2 0 0 0 4 0V3a3 3 0 0 0-6 0v12" })) : null,
  );
}
