import { svg } from "../core/dom.js";
import { barName, keySign, markText, meterText, numberName } from "../core/words.js";
import { centre, points, taller } from "./geometry.js";
import { barlineSign, ending, pill, pillWidth, signLabel } from "./signs.js";
import { writtenLayer } from "./written.js";

/** @typedef {import("../core/types.js").Bar} Bar */
/** @typedef {import("../core/types.js").MapPage} MapPage */

/** Below this a bar is shown as unsure. */
export const UNSURE = 0.9;

/**
 * @param {Bar} bar
 * @param {Set<string>} doubted ids with an open doubt
 */
export function isUnsure(bar, doubted) {
  if (bar.origin === "corrected" || bar.origin === "verified") return doubted.has(bar.id);
  return bar.confidence < UNSURE || doubted.has(bar.id);
}

/**
 * What the drawing must know besides bars: which are doubted, and where numbers start.
 *
 * @param {import("../core/types.js").BarMap} map
 * @param {import("../core/types.js").Finding[]} doubts
 * @returns {{doubted: Set<string>, starts: Map<string, string>}}
 */
export function marksOf(map, doubts) {
  /** @type {Map<string, string>} */
  const starts = new Map();
  for (const number of map.numbers) {
    // its title stands on the page, over the line; under it there is no room for one
    if (number.firstBar) starts.set(number.firstBar, number.label ? `No. ${number.label}` : numberName(number));
  }
  return { doubted: new Set(doubts.flatMap((d) => (d.bar ? [d.bar] : []))), starts };
}

/**
 * What the drawing shows besides bars.
 *
 * @typedef {object} OverlayState
 * @property {Set<string>} doubted ids of bars
 * @property {string} [selected]
 * @property {Map<string, string>} starts bar id to the name of the number that begins there
 * @property {number} [boost] how much larger than the page's own measure the letters are, so that they can be read on a small screen
 * @property {Set<string>} [marked]
 * @property {import("../core/types.js").Outline[]} [frames] lines that wait to be read
 */

/** What was read on a page, drawn. A bar that is as it was keeps its drawing: most are after a step. */
export class Overlay {
  #lines = svg("g");
  #drawn = svg("g");
  node = svg("g", { class: "overlay" }, this.#lines, this.#drawn);
  #shown = "";
  /** @type {{id: string, said: string, node: SVGElement}[]} in the order of the page */
  #bars = [];

  /**
   * @param {MapPage} page
   * @param {Bar[]} bars of that page
   * @param {OverlayState} state
   */
  draw(page, bars, { doubted, selected, starts, boost = 1, marked, frames = [] }) {
    const lines = JSON.stringify([page.systems, page.byHand, frames]);
    if (lines !== this.#shown) {
      this.#shown = lines;
      this.#lines.replaceChildren(...page.systems.map((s) => svg("polygon", { class: "system", points: points(taller(s.outline, s.staffSpace)) })), ...writtenLayer(page), ...frames.map((o) => svg("polygon", { class: "waits-frame", points: points(o) })));
    }
    const before = new Map(this.#bars.map((one) => [one.id, one]));
    const now = bars.map((bar) => {
      const space = page.systems.find((s) => s.index === bar.system)?.staffSpace ?? 20;
      const look = { unsure: isUnsure(bar, doubted), selected: bar.id === selected || marked?.has(bar.id) === true, starts: starts.get(bar.id), boost };
      const said = JSON.stringify([bar, space, look]);
      const known = before.get(bar.id);
      return known?.said === said ? known : { id: bar.id, said, node: drawBar(bar, space, look) };
    });
    if (now.length === this.#bars.length && now.every(({ id }, i) => id === this.#bars[i].id)) {
      now.forEach(({ node }, i) => node !== this.#bars[i].node && this.#bars[i].node.replaceWith(node));
    } else {
      this.#drawn.replaceChildren(...now.map(({ node }) => node));
    }
    this.#bars = now;
  }
}

/**
 * Everything read is written under the line, so that the print above stays to be compared with.
 *
 * @param {Bar} bar
 * @param {number} s staff space
 * @param {{unsure: boolean, selected: boolean, starts?: string, boost: number}} state
 */
function drawBar(bar, s, { unsure, selected, starts, boost }) {
  const o = bar.outline;
  const classes = ["bar", unsure ? "unsure" : "", selected ? "selected" : "", bar.waits ? "waits" : "", bar.origin].filter(Boolean).join(" ");
  const group = svg("g", { class: classes, "data-bar": bar.id });
  group.append(svg("polygon", { class: "bar-field", points: points(taller(o, s * 0.9)) }));
  if (unsure) group.append(svg("polygon", { class: "bar-hatch", points: points(taller(o, s * 0.9)), fill: "url(#hatch)" }));
  if (bar.startBarline !== "none" && bar.startBarline !== "single") {
    group.append(barlineSign(bar.startBarline, o[0], o[3], s));
  }
  group.append(barlineSign(bar.endBarline, o[1], o[2], s));
  if (bar.ending?.length) group.append(ending(bar.ending, o, s));
  plates(group, bar, s, boost, unsure);
  const low = Math.max(o[2][1], o[3][1]);
  if (starts) group.append(svg("text", { class: "number-start", x: o[3][0], y: low + s * (1 + 3.6 * boost), "font-size": s * 1.4 * boost, text: starts }));
  group.append(svg("title", { text: `Bar ${barName(bar)}${bar.waits ? ", waits to be sent" : ""}` }));
  return group;
}

/** In a narrow bar letters shrink to this share, so as not to run into the next bar's. */
const NARROWEST = 0.55;

/**
 * @param {Bar} bar
 * @returns {[string, string][]} what is written behind its number, and how
 */
function platesOf(bar) {
  /** @type {[string, string][]} */
  const all = [
    [markText(bar.rehearsal), `pill-mark enclosure-${bar.rehearsal?.enclosure}`],
    [bar.key?.printed ? keySign(bar.key.fifths) : "", "pill-meter"],
    [bar.meter?.printed ? meterText(bar.meter) : "", "pill-meter"],
  ];
  return all.filter(([text]) => text);
}

/**
 * What is written under the middle of a bar where there is room, behind all else where there is not.
 *
 * @param {Bar} bar
 * @returns {{text: string, size: number, kind: string}|undefined}
 */
function middleOf(bar) {
  if (bar.count > 1) return { text: String(bar.count), size: 1.5, kind: "pill-count" };
  return bar.content === "bar-repeat" ? { text: "same", size: 1, kind: "pill-plain" } : undefined;
}

/**
 * How wide what is written under a bar is, in letters of a size.
 *
 * @param {Bar} bar
 * @param {number} t
 */
function plateWidth(bar, t) {
  const name = bar.label ?? String(bar.number);
  const plates = platesOf(bar).reduce((sum, [text]) => sum + pillWidth(text, t * 1.25) + t * 0.4, 0);
  const middle = middleOf(bar);
  return t * (0.85 * name.length + 0.4) + plates + (middle ? pillWidth(middle.text, t * middle.size) : 0);
}

/**
 * @param {SVGGElement} group
 * @param {Bar} bar
 * @param {number} s
 * @param {number} boost
 * @param {boolean} unsure
 */
function plates(group, bar, s, boost, unsure) {
  const o = bar.outline;
  const room = o[2][0] - o[3][0] - s * 0.4;
  const t = s * boost * Math.min(1, Math.max(NARROWEST, room / plateWidth(bar, s * boost)));
  const low = Math.max(o[2][1], o[3][1]);
  const y = low + s + t * 1.2;
  const name = bar.label ?? String(bar.number);
  let x = o[3][0] + s * 0.25;
  group.append(svg("text", { class: "bar-number", x, y: y + t * 0.4, "font-size": t * 1.25, text: name }));
  x += t * (0.85 * name.length + 0.4);
  for (const [text, kind] of platesOf(bar)) {
    const width = pillWidth(text, t * 1.25);
    group.append(pill(text, x + width / 2, y, t * 1.25, kind));
    x += width + t * 0.4;
  }
  const middle = middleOf(bar);
  if (middle) {
    const width = pillWidth(middle.text, t * middle.size);
    const at = Math.max(centre(o)[0], x + width / 2);
    group.append(pill(middle.text, at, y, t * middle.size, middle.kind));
    x = at + width / 2;
  }
  // In a narrow bar the hatching must do: the sign would hide the number.
  if (unsure && o[2][0] - x > t * 2) group.append(pill("?", o[2][0] - t * 0.9, y, t * 1.2, "pill-doubt"));
  const signs = signLabel(bar);
  if (signs) group.append(svg("text", { class: "bar-signs", x: o[2][0] - s * 0.2, y: y + t * 2, "text-anchor": "end", "font-size": t * 1.2, text: signs }));
}
