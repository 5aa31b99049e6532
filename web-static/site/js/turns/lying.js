import { el, svg } from "../core/dom.js";

/** @typedef {import("../core/types.js").Settings} Settings */

const PAPER = { width: 16, height: 22, y: 3, rx: 1 };

/** @type {[string, string, number[]][]} what is kept, what is asked, at which x a page lies; the first one is the first page */
const WAYS = [
  ["right", "The first page is a right-hand page", [19]],
  ["left", "The first page is a left-hand page", [2, 19]],
  ["single-sheets", "Single sheets, nothing is bound", [10]],
];

/**
 * The first page in an opening, drawn.
 *
 * @param {number[]} places
 */
function drawing(places) {
  const bound = places[0] !== 10;
  return svg(
    "svg",
    { class: "opening", viewBox: "0 0 37 28", width: 56, height: 42, "aria-hidden": "true" },
    bound ? svg("path", { d: "M18.5 1v26" }) : null,
    places.map((x, i) => svg("rect", { ...PAPER, x, class: i ? "other-page" : "first-page" })),
    svg("text", { x: places[0] + 8, y: 18, "text-anchor": "middle", "font-size": 10 }, "1"),
  );
}

/**
 * Asks how the pages lie: the first one, and those that are not bound as the others.
 *
 * @param {Settings} now
 * @param {{id: string, index: number}[]} pages
 */
export function lyingFields(now, pages) {
  const ways = WAYS.map(([value, label, places]) =>
    el("label", { class: "tick-line" }, el("input", { type: "radio", name: "firstPage", value, checked: now.firstPage === value }), drawing(places), el("span", { text: label })),
  );
  const unsaid = el("label", { class: "tick-line" }, el("input", { type: "radio", name: "firstPage", value: "", checked: !now.firstPage }), el("span", { class: "lying-unsaid" }), el("span", { text: "As the printed page numbers and the pictures say" }));
  return [
    el("fieldset", { class: "lying" }, el("legend", { text: "How the pages lie" }), ways, unsaid),
    pages.length < 2
      ? null
      : el(
        "details",
        { class: "more" },
        el("summary", { text: "Leaves laid in, and loose copies" }),
        el("p", { class: "field-hint", text: "A leaf laid in has a front and a back of its own. A loose copy lies beside the book and is never turned to." }),
        pages.map((page) => leafField(page, now.leaves?.[page.id] ?? "bound")),
      ),
  ];
}

/**
 * @param {{id: string, index: number}} page
 * @param {string} kind
 */
function leafField(page, kind) {
  return el(
    "label",
    { class: "inline-field leaf" },
    el("span", { text: `Page ${page.index}` }),
    el(
      "select",
      { name: `leaf-${page.id}` },
      [["bound", "in the book"], ["inserted", "laid in"], ["loose", "loose copy"]].map(([value, text]) => el("option", { value, text, selected: value === kind })),
    ),
  );
}

/**
 * What was answered.
 *
 * @param {FormData} answer
 * @param {{id: string}[]} pages
 * @returns {{firstPage: string|null, leaves: {[page: string]: string}}}
 */
export function lying(answer, pages) {
  const first = String(answer.get("firstPage") ?? "");
  const kinds = pages.map((p) => [p.id, String(answer.get(`leaf-${p.id}`) ?? "bound")]).filter(([, kind]) => kind !== "bound");
  return { firstPage: first || null, leaves: Object.fromEntries(kinds) };
}
