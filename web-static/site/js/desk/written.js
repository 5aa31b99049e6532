import { bookPath, call, Kept, read } from "../core/api.js";
import { button, el, svg } from "../core/dom.js";
import { mayCorrect } from "../core/may.js";
import { recall, remember } from "../core/store.js";
import { complain } from "../core/toast.js";
import { barName } from "../core/words.js";
import { centre, points } from "./geometry.js";

/** @typedef {import("../core/types.js").Bar} Bar */
/** @typedef {import("../core/types.js").HandMark} HandMark */
/** @typedef {import("../core/types.js").MapPage} MapPage */
/** @typedef {import("../core/types.js").PencilMark} PencilMark */

/** Where what a person said is no mark is kept. */
const NOT = "not-by-hand";

/**
 * @param {MapPage} page
 * @param {HandMark} mark
 */
function keyOf(page, mark) {
  return [page.id ?? page.source, ...centre(mark.outline).map(Math.round)].join(":");
}

/** @param {MapPage} page */
function marksOn(page) {
  const refused = new Set(recall(NOT, /** @type {string[]} */ ([])));
  return (page.byHand ?? []).map((mark) => ({ mark, key: keyOf(page, mark) })).filter(({ key }) => !refused.has(key));
}

/**
 * What players wrote on a page, outlined.
 *
 * @param {MapPage} page
 */
export function writtenLayer(page) {
  return marksOn(page).map(({ mark, key }) =>
    svg("polygon", { class: "by-hand", "data-hand": key, points: points(mark.outline) }, svg("title", {}, mark.text ? `By hand: ${mark.text}` : "By hand")),
  );
}

/**
 * The bar a mark stands at: the one that is the fewest pixels away.
 *
 * @param {Bar[]} bars
 * @param {HandMark} mark
 */
function barAt(bars, mark) {
  const [x, y] = centre(mark.outline);
  const far = (/** @type {Bar} */ { outline: o }) => Math.max(0, o[0][0] - x, x - o[1][0]) + Math.max(0, o[0][1] - y, y - o[2][1]);
  return [...bars].sort((a, b) => far(a) - far(b))[0];
}

/** @param {HandMark} mark */
function nameOf(mark) {
  return mark.text ? `“${mark.text}”` : "Something drawn or written";
}

/**
 * What players wrote on a page, one by one: to be rubbed out, to be carried over, or no mark at all.
 *
 * @param {string} book
 * @param {MapPage|undefined} page
 * @param {Bar[]} bars of that page
 * @param {(bar: Bar) => string} numberOf the musical number a bar lies in
 */
export function writtenList(book, page, bars, numberOf) {
  const marks = page ? marksOn(page) : [];
  if (!page || marks.length === 0) return null;
  const list = el("ul", { class: "plain written" });
  /** @type {Map<string, number>} how many marks were met at a bar */
  const met = new Map();
  for (const { mark, key } of marks) {
    const bar = barAt(bars, mark);
    const nth = (met.get(bar?.id ?? "") ?? 0) + 1;
    met.set(bar?.id ?? "", nth);
    list.append(row(book, page, { mark, key, bar, nth, number: bar ? numberOf(bar) : "" }));
  }
  void tickWritten(book, list);
  return el(
    "section",
    { class: "written-by-hand", "aria-label": "Written by hand" },
    el("p", { class: "group-label", text: "Written by hand" }),
    el("p", { class: "field-hint", text: "Other players' marks; nothing of it is taken for print." }),
    list,
  );
}

/**
 * @param {string} book
 * @param {MapPage} page
 * @param {{mark: HandMark, key: string, bar: Bar|undefined, nth: number, number: string}} what
 */
function row(book, page, { mark, key, bar, nth, number }) {
  /** @type {PencilMark|undefined} */
  const pencil = bar && {
    page: page.index, system: bar.system, bar: bar.id, number, where: `bar ${barName(bar)}`,
    mark: `by hand: ${mark.text ?? "what was written"}${nth > 1 ? ` (${nth})` : ""}`, sign: mark.text ?? "",
  };
  const node = el("li", { "data-hand": key, "data-mark": pencil ? `${pencil.bar}/${pencil.mark}` : "" });
  const rub = !mayCorrect() ? null : button("Rub out before it goes back", () => void tick(book, pencil, node), { class: "btn rub", "aria-pressed": "false", disabled: !pencil });
  const carry = bar && el("a", { class: "btn", href: `/road.html?b=${encodeURIComponent(book)}&bar=${encodeURIComponent(bar.id)}`, text: "Carry over to my changes" });
  const refuse = button("Not a mark", () => {
    remember(NOT, [...recall(NOT, /** @type {string[]} */ ([])), key]);
    for (const drawn of document.querySelectorAll("[data-hand]")) if (drawn.getAttribute("data-hand") === key) drawn.remove();
  }, { class: "btn btn-quiet" });
  node.append(el("p", {}, el("b", { text: nameOf(mark) }), bar ? `, bar ${barName(bar)}` : ""), el("div", { class: "row" }, ...[rub, mayCorrect() && carry, refuse].filter((n) => n instanceof Node)));
  return node;
}

/**
 * Puts a mark on the list of what is to be rubbed out, or takes it off again.
 *
 * @param {string} book
 * @param {PencilMark|undefined} mark
 * @param {HTMLElement} node
 */
async function tick(book, mark, node) {
  const rub = node.querySelector(".rub");
  if (!mark || !rub) return;
  try {
    await call("POST", bookPath(book, "/marks"), { body: { mark, written: rub.getAttribute("aria-pressed") !== "true" } });
    await tickWritten(book, /** @type {HTMLElement} */ (node.parentElement));
  } catch (error) {
    complain(error);
    if (error instanceof Kept) await tickWritten(book, /** @type {HTMLElement} */ (node.parentElement));
  }
}

/**
 * Shows which marks are on the list of what is to be rubbed out.
 *
 * @param {string} book
 * @param {HTMLElement} list
 */
async function tickWritten(book, list) {
  try {
    const { written } = await read(book, "/marks");
    const there = new Set(written.map((m) => `${m.bar}/${m.mark}`));
    for (const node of list.children) node.querySelector(".rub")?.setAttribute("aria-pressed", String(there.has(node.getAttribute("data-mark") ?? "")));
  } catch (error) {
    complain(error);
  }
}
