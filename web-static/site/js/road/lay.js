import { width } from "./box.js";

/** @typedef {import("../core/types.js").RoadBar} RoadBar */
/** @typedef {import("../core/types.js").RoadMark} RoadMark */

/**
 * Where one page ends and the next begins.
 *
 * @typedef {object} Fold
 * @property {number} page the one that begins
 * @property {boolean} turned or it lies beside the one before
 * @property {string} word what is written at the turn, may be empty
 * @property {string} says
 * @property {string} verdict of the turn, may be empty
 */

/** @typedef {{bar?: RoadBar, added?: RoadMark, fold?: Fold}} Item what takes room in the form: a bar, new bars, a fold */
/** @typedef {Item & {x: number, row: number, w: number}} Placed */
/** @typedef {{mark: RoadMark, text: string, x1: number, x2: number, at: number, lane: number, begins: boolean, ends: boolean}} Segment a mark in one row; its text begins at `at` */

const EDGE = 4;
const FOLD_WIDTH = 46;
const NEW_WIDTH = 48;
/** So many new bars are drawn side by side at the most. */
const MOST_NEW = 3;
const LETTER = 7.3;
/** Longer words stand in the list of changes. */
const MOST_LETTERS = 64;

/**
 * The sign as it is drawn.
 *
 * @param {RoadMark} mark
 * @param {number} room
 */
function shortSign(mark, room) {
  const names = mark.place === "new-bars" && mark.added?.[0] ? ` (${mark.added[0]})` : "";
  const text = mark.sign + names;
  const most = Math.min(MOST_LETTERS, Math.floor((room - 4 * EDGE) / LETTER) - 2);
  return text.length > most ? `${text.slice(0, most - 1)}…` : text;
}

/**
 * The bars with what comes between them.
 *
 * @param {RoadBar[]} bars
 * @param {RoadMark[]} marks
 * @param {(bar: RoadBar, before: RoadBar|undefined) => Fold|undefined} fold
 * @returns {Item[]}
 */
export function itemsOf(bars, marks, fold) {
  const added = (/** @type {RoadBar} */ bar, /** @type {number} */ at) => marks.filter((m) => m.place === "new-bars" && m.from?.bar === bar.id && m.from.at === at).map((m) => ({ added: m }));
  return bars.flatMap((bar, i) => {
    const page = fold(bar, bars[i - 1]);
    return [...(page ? [{ fold: page }] : []), ...added(bar, 0), { bar }, ...added(bar, 1)];
  });
}

/** @param {Item} item */
function itemWidth({ bar, added }) {
  if (bar) return width(bar);
  return added ? NEW_WIDTH * Math.min(MOST_NEW, added.added?.length ?? 1) : FOLD_WIDTH;
}

/**
 * @param {Item[]} items
 * @param {number} room width of the drawing
 * @returns {Placed[]}
 */
export function layItems(items, room) {
  /** @type {Placed[]} */
  const placed = [];
  let x = EDGE;
  let row = 0;
  items.forEach((item, i) => {
    const w = Math.min(itemWidth(item), room - 2 * EDGE);
    const next = items[i + 1];
    const needed = item.fold && next ? w + Math.min(itemWidth(next), room - 2 * EDGE - w) : w; // a fold goes with what comes after it
    if (x + needed > room - EDGE && x > EDGE) {
      x = EDGE;
      row++;
    }
    placed.push({ ...item, x, row, w });
    x += w;
  });
  return placed;
}

/**
 * The marks of each row, each in the first lane in which it has room.
 *
 * @param {Placed[]} placed
 * @param {RoadMark[]} marks
 * @param {number} room
 * @returns {Segment[][]} by row
 */
export function lanesOf(placed, marks, room) {
  const rows = Math.max(0, ...placed.map((p) => p.row + 1));
  /** @type {Segment[][]} */
  const all = Array.from({ length: rows }, () => []);
  const boxes = new Map(placed.flatMap((p) => (p.bar ? [[p.bar.id, p]] : [])));
  for (const mark of marks) {
    for (const part of partsOf(mark, placed, boxes)) all[part.row].push(segment(mark, part, room));
  }
  return all.map(stacked);
}

/**
 * @param {RoadMark} mark
 * @param {Placed[]} placed
 * @param {Map<string, Placed>} boxes
 * @returns {{row: number, x1: number, x2: number, begins: boolean, ends: boolean}[]}
 */
function partsOf(mark, placed, boxes) {
  if (mark.place === "end") {
    const last = placed.filter((p) => p.bar).at(-1);
    return last ? [{ row: last.row, x1: last.x + last.w, x2: last.x + last.w, begins: true, ends: true }] : [];
  }
  const from = boxes.get(mark.from?.bar ?? "");
  if (!from || !mark.from) return [];
  const x1 = from.x + mark.from.at * from.w;
  if (mark.place === "new-bars") return [{ row: from.row, x1, x2: x1, begins: true, ends: true }];
  const to = boxes.get(mark.to?.bar ?? "") ?? from;
  const x2 = mark.to ? to.x + mark.to.at * to.w : x1;
  const parts = [];
  for (let row = from.row; row <= to.row; row++) {
    const here = placed.filter((p) => p.row === row && p.bar);
    const last = here[here.length - 1];
    parts.push({ row, x1: row === from.row ? x1 : here[0].x, x2: row === to.row ? x2 : last.x + last.w, begins: row === from.row, ends: row === to.row });
  }
  return parts;
}

/**
 * @param {RoadMark} mark
 * @param {{x1: number, x2: number, begins: boolean, ends: boolean}} part
 * @param {number} room
 * @returns {Segment}
 */
function segment(mark, part, room) {
  const text = part.begins ? shortSign(mark, room) : `… ${shortSign(mark, room)}`;
  const wide = text.length * LETTER + 6;
  const at = Math.max(EDGE, Math.min(mark.place === "end" ? part.x1 - wide : part.x1 + 5, room - EDGE - wide));
  return { ...part, mark, text, at, lane: 0 };
}

/** @param {Segment[]} row */
function stacked(row) {
  /** @type {number[]} */
  const ends = [];
  for (const part of row.sort((a, b) => Math.min(a.x1, a.at) - Math.min(b.x1, b.at))) {
    const from = Math.min(part.x1, part.at);
    const free = ends.findIndex((end) => end + 8 <= from);
    part.lane = free < 0 ? ends.length : free;
    ends[part.lane] = Math.max(part.x2, part.at + part.text.length * LETTER + 6);
  }
  return row;
}
