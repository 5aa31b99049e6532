import { svg } from "../core/dom.js";
import { HEIGHT } from "./box.js";

/** @typedef {import("./lay.js").Placed} Placed */
/** @typedef {import("./lay.js").Segment} Segment */
/** @typedef {import("../core/types.js").RoadMark} RoadMark */

/** Height of one lane of marks under a row of bars, and where the first begins under the bars. */
export const LANE = 27;
export const LANES_FROM = 22;

const GLASSES = "glasses (watch)";

/**
 * What the show changes, under the bars it is about; a tap leads to the change.
 *
 * @param {Segment} part
 * @param {number} y upper edge of its row's bars
 * @param {(change: string) => void} edit
 */
export function saidMark({ mark, text, x1, x2, at, lane, begins, ends }, y, edit) {
  const top = y + HEIGHT + LANES_FROM + lane * LANE;
  const bracket = mark.to ? `M${x1 + 2} ${top + (begins ? 5 : 0)} V${top} H${x2 - 2}${ends ? " v5" : ""}` : `M${x1 - 4} ${top + 6} L${x1} ${top - 1} L${x1 + 4} ${top + 6}z`;
  const looks = mark.sign.startsWith(GLASSES); // a pair of glasses is what players draw
  const body = [looks ? svg("path", { class: "form-glasses", d: `M${at} ${top + 14} a4 4 0 1 0 8 0 a4 4 0 1 0 -8 0 m8 0 q2 -3 4 0 a4 4 0 1 0 8 0 a4 4 0 1 0 -8 0` }) : null, svg("path", { class: mark.to ? "form-bracket" : "form-point", d: bracket }), svg("text", { class: "form-said-text", x: at + (looks ? 24 : 0), y: top + 19, text: looks ? text.replace(GLASSES, "watch") : text })];
  const name = ["form-said", mark.open ? "open" : "", mark.waits ? "waits" : ""].filter(Boolean).join(" ");
  if (!mark.change) return svg("g", { class: name, "aria-hidden": "true" }, body); // its bar says it
  return button(mark, name, x1, x2, top - 3, at + text.length * 7.3, edit, body);
}

/**
 * @param {RoadMark} mark
 * @param {string} name
 * @param {number} x1
 * @param {number} x2
 * @param {number} top
 * @param {number} end
 * @param {(change: string) => void} edit
 * @param {(SVGElement|null)[]} body
 */
function button(mark, name, x1, x2, top, end, edit, body) {
  const open = (/** @type {Event} */ event) => {
    event.preventDefault();
    event.stopPropagation();
    edit(mark.change);
  };
  const reach = svg("rect", { class: "form-reach", x: Math.min(x1 - 4, end - 44), y: top, width: Math.max(44, x2 - x1, end - x1 + 4), height: LANE });
  return svg(
    "g",
    {
      class: name, role: "button", tabindex: -1, "aria-label": `Edit: ${mark.says}${mark.waits ? ", waits to be sent" : ""}`, "data-said": mark.change,
      on: { click: open, keydown: (/** @type {KeyboardEvent} */ e) => (e.key === "Enter" || e.key === " ") && open(e) },
    },
    svg("title", { text: mark.says }),
    reach,
    body,
  );
}

/**
 * Bars that are not in the book, where they come in.
 *
 * @param {Placed} place
 * @param {number} y
 * @param {(change: string) => void} edit
 */
export function newBars({ added: mark, x, w }, y, edit) {
  const names = mark?.added ?? [];
  const name = names.length > 1 && names[0] ? `${names[0]}–${names[names.length - 1]}` : (names[0] ?? "");
  return mark
    ? button(mark, "form-new", x, x + w, y, x, edit, [
        svg("rect", { class: "form-new-field", x: x + 3, y: y + 3, width: w - 6, height: HEIGHT - 6 }),
        svg("text", { class: "form-new-text", x: x + w / 2, y: y + HEIGHT / 2 + 6, "text-anchor": "middle", text: `+${names.length}` }),
        svg("text", { class: "form-new-name", x: x + w / 2, y: y + HEIGHT + 17, "text-anchor": "middle", text: name }),
      ])
    : null;
}

/**
 * The end of a page: a dog-ear where it is turned, a line where the next one lies beside it.
 *
 * @param {Placed} place
 * @param {number} y
 */
export function foldMark({ fold, x, w }, y) {
  if (!fold) return null;
  const mid = x + w / 2;
  const foot = y + HEIGHT + 6;
  const line = fold.turned ? `M${mid} ${y - 22} V${foot - 13} L${mid - 13} ${foot}` : `M${mid} ${y - 22} V${foot}`;
  return svg(
    "g",
    { class: `form-fold${fold.turned ? " turned" : ""}${fold.verdict ? ` fold-${fold.verdict}` : ""}`, role: "img", "aria-label": fold.says, "data-fold": fold.page },
    svg("title", { text: fold.says }),
    svg("path", { class: "fold-line", d: line }),
    fold.turned ? svg("path", { class: "fold-ear", d: `M${mid} ${foot - 13} h-13 v13z` }) : null,
    svg("text", { class: "fold-page", x: mid, y: y - 26, "text-anchor": "middle", text: `p. ${fold.page}` }),
    fold.word ? svg("text", { class: "fold-word", x: mid, y: y + HEIGHT + 19, "text-anchor": "middle", text: fold.word }) : null,
  );
}
