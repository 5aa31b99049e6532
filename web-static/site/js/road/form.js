import { svg } from "../core/dom.js";
import { numberName } from "../core/words.js";
import { HEIGHT, barBox } from "./box.js";
import { itemsOf, lanesOf, layItems } from "./lay.js";
import { LANE, foldMark, newBars, saidMark } from "./said.js";

/** @typedef {import("../core/types.js").RoadBar} RoadBar */
/** @typedef {import("../core/types.js").RoadMark} RoadMark */
/** @typedef {import("../core/types.js").RoadNumber} RoadNumber */
/** @typedef {import("./lay.js").Fold} Fold */

/** Above the bars of a row, and under them before the lanes of marks. */
const TOP = 40;
const UNDER = 28;

/**
 * Draws the form of one number: its bars, what the show changes in them, and where its pages end.
 *
 * @param {RoadNumber} number
 * @param {number} room
 * @param {object} how
 * @param {RoadMark[]} how.marks those of this number that stand at bars
 * @param {(bar: RoadBar, before: RoadBar|undefined) => Fold|undefined} how.fold
 * @param {(bar: RoadBar) => string} how.stateOf
 * @param {(bar: RoadBar) => void} how.pick
 * @param {(change: string) => void} how.edit
 * @returns {SVGSVGElement}
 */
export function drawForm(number, room, { marks, fold, stateOf, pick, edit }) {
  const placed = layItems(itemsOf(number.bars, marks, fold), room);
  // new bars between two bars are drawn as bars; inside a long rest they are a mark
  const lanes = lanesOf(placed, marks.filter((m) => !placed.some((p) => p.added === m)), room);
  /** @type {number[]} */
  const tops = [];
  let height = 0;
  for (const row of lanes) {
    tops.push(height + TOP);
    height += TOP + HEIGHT + UNDER + LANE * Math.max(0, ...row.map((s) => s.lane + 1));
  }
  const root = svg("svg", { class: "form", width: room, height, viewBox: `0 0 ${room} ${height}`, role: "group", "aria-label": `Form of ${numberName(number)}` });
  /** @type {typeof placed[number]|undefined} */
  let before;
  for (const place of placed) {
    const y = tops[place.row];
    if (place.fold) root.append(foldMark(place, y) ?? "");
    else if (place.added) root.append(newBars(place, y, edit) ?? "");
    else if (place.bar) {
      const bar = place.bar;
      const said = lanes[place.row].filter((s) => s.begins && s.mark.from?.bar === bar.id && s.mark.change).map((s) => s.mark.says);
      const alone = before?.row !== place.row || before.x + before.w < place.x - 1;
      root.append(barBox({ ...place, bar }, y, before?.bar, { state: stateOf(bar), said, pick, newRow: alone }));
      before = place;
    }
  }
  root.append(...lanes.flatMap((row, i) => row.map((part) => saidMark(part, tops[i], edit))));
  walkByKeys(root, lanes.flat());
  return root;
}

/**
 * Left and right go from bar to bar, down to what is said of a bar, up back to it.
 *
 * @param {SVGSVGElement} root
 * @param {import("./lay.js").Segment[]} parts
 */
function walkByKeys(root, parts) {
  const bars = /** @type {SVGGElement[]} */ ([...root.querySelectorAll(".form-bar")]);
  const step = (/** @type {number} */ from, /** @type {number} */ by) => {
    const next = bars[from + by] ?? bars[from];
    bars[from].setAttribute("tabindex", "-1");
    next.setAttribute("tabindex", "0");
    next.focus();
  };
  bars[0]?.setAttribute("tabindex", "0");
  root.addEventListener("keydown", (event) => {
    const at = document.activeElement;
    const now = bars.findIndex((b) => b === at);
    const by = event.key === "ArrowRight" ? 1 : event.key === "ArrowLeft" ? -1 : 0;
    if (by && now >= 0) step(now, by);
    else if (event.key === "ArrowDown" && now >= 0) {
      const part = parts.find((p) => p.mark.from?.bar === bars[now].dataset.bar && p.mark.change);
      if (!part) return;
      /** @type {SVGGElement|null} */ (root.querySelector(`[data-said="${CSS.escape(part.mark.change)}"]`))?.focus();
    } else if (event.key === "ArrowUp" && now < 0) {
      const part = parts.find((p) => p.mark.change === at?.getAttribute("data-said"));
      bars.find((b) => b.dataset.bar === part?.mark.from?.bar)?.focus();
    } else return;
    event.preventDefault();
  });
}
