import { svg } from "../core/dom.js";
import { SIGN, barName, keySign, markText, meterText } from "../core/words.js";

/** @typedef {import("../core/types.js").RoadBar} RoadBar */

/** Height of a bar as it is drawn, pixels. */
export const HEIGHT = 46;

/** Signs that count at the start of their bar; the others count at its end. */
const AT_START = ["segno", "coda"];
/** What is short enough to be drawn as a sign of its own. */
const SHORT = /** @type {Record<string, string>} */ ({ caesura: "//" });

/**
 * @param {RoadBar} bar
 * @param {boolean} atStart
 */
function signs(bar, atStart) {
  const list = (bar.signs ?? []).filter((s) => AT_START.includes(s) === atStart && s !== "fermata").map((s) => SHORT[s] ?? SIGN[s] ?? s);
  if (bar.times && !atStart) list.push(`${bar.times}×`);
  return list.join(" ");
}

/** @param {string} mark */
function markWidth(mark) {
  return mark ? Math.max(24, 12 + mark.length * 10) : 0;
}

/** @param {RoadBar} bar a long rest is longer, but not in proportion; signs get their room */
export function width(bar) {
  const rest = bar.count > 1 ? 16 + Math.min(110, 22 * Math.log2(bar.count)) : 0;
  const letters = signs(bar, true).length + signs(bar, false).length;
  const over = markWidth(markText(bar.rehearsal)) + letters * 8.4 + (letters ? 10 : 0);
  const meterAndKey = bar.meter?.printed && bar.key?.printed ? 70 : 0;
  return Math.max(42 + rest, over, meterAndKey);
}

/**
 * @param {string} type
 * @param {number} x
 * @param {number} y
 */
function edge(type, x, y) {
  const line = (/** @type {number} */ dx, /** @type {number} */ w) => svg("rect", { class: "form-line", x: x + dx - w / 2, y, width: w, height: HEIGHT });
  const dots = (/** @type {number} */ dx) => [-7, 7].map((dy) => svg("circle", { class: "form-dot", cx: x + dx, cy: y + HEIGHT / 2 + dy, r: 2.6 }));
  switch (type) {
    case "double": return [line(-2, 1.5), line(2, 1.5)];
    case "final": return [line(-5, 1.5), line(-1, 4)];
    case "repeat-start": return [line(2, 4), line(6, 1.5), ...dots(11)];
    case "repeat-end": return [line(-2, 4), line(-6, 1.5), ...dots(-11)];
    case "repeat-both": return [line(0, 4), line(-5, 1.5), line(5, 1.5), ...dots(-10), ...dots(10)];
    case "none": return [];
    default: return [line(0, 1.5)];
  }
}

/**
 * What a screen reader says of a bar.
 *
 * @param {RoadBar} bar
 */
function spoken(bar) {
  return [
    `Bar ${barName(bar)}`,
    bar.within ?? "",
    markText(bar.rehearsal) ? `mark ${markText(bar.rehearsal)}` : "",
    bar.count > 1 ? `rest of ${bar.count} bars` : bar.content === "rest" ? "rest" : "",
    bar.cut ? "cut" : bar.cutParts?.length ? "partly cut" : "", heldText(bar),
    ...(bar.signs ?? []).map((s) => SIGN[s] ?? s),
  ].filter(Boolean).join(", ");
}

/**
 * What holds it open; inside a rest with its bars.
 *
 * @param {RoadBar} bar
 */
function heldText(bar) {
  return bar.held?.length ? bar.held.join(", ") : bar.vamp ? "vamp" : bar.safety ? "safety" : "";
}

/**
 * The part of a bar that is out, hatched.
 *
 * @param {number} x
 * @param {number} y
 * @param {number} w
 */
function partCut(x, y, w) {
  const strokes = [];
  for (let dx = -HEIGHT; dx < w; dx += 9) {
    const [from, to] = [Math.max(0, dx), Math.min(w, dx + HEIGHT)];
    if (to - from > 1) strokes.push(`M${x + from} ${y + HEIGHT - (from - dx)} L${x + to} ${y + HEIGHT - (to - dx)}`);
  }
  return [svg("rect", { class: "form-part", x, y, width: w, height: HEIGHT }), svg("path", { class: "form-hatch", d: strokes.join(" ") })];
}

/** A key signature with its figure; it goes over the meter where both don't fit side by side. */
const KEY_WIDTH = 24;

/**
 * @param {{bar: RoadBar, x: number, w: number}} place
 * @param {number} y its upper edge
 * @param {RoadBar|undefined} before
 * @param {{state: string, said: string[], pick: (bar: RoadBar) => void, newRow: boolean}} how `said`: what the show changes in it
 */
export function barBox({ bar, x, w }, y, before, { state, said, pick, newRow }) {
  const rest = bar.content === "rest" || bar.content === "multi-rest";
  const classes = ["form-bar", rest ? "rest" : "", bar.cut ? "cut" : "", bar.vamp ? "vamp" : "", bar.safety ? "safety" : "", state].filter(Boolean).join(" ");
  const choose = (/** @type {Event} */ event) => {
    event.preventDefault();
    pick(bar);
  };
  const group = svg("g", {
    class: classes, role: "button", tabindex: -1, "aria-label": [spoken(bar), ...said].join(", "), "aria-pressed": String(state !== ""), "data-bar": bar.id,
    on: { click: choose, keydown: (/** @type {KeyboardEvent} */ e) => (e.key === "Enter" || e.key === " ") && choose(e) },
  });
  group.append(svg("rect", { class: "form-field", x, y, width: w, height: HEIGHT }));
  for (const part of bar.cutParts ?? []) group.append(...partCut(x + part.from * w, y, (part.to - part.from) * w));
  if (bar.cut) group.append(svg("path", { class: "form-cut", d: `M${x} ${y + HEIGHT} L${x + w} ${y}` }));
  if (rest) {
    const pad = Math.min(14, w / 4);
    group.append(svg("rect", { class: "form-rest", x: x + pad, y: y + HEIGHT / 2 - 4, width: w - 2 * pad, height: 8 }));
    if (bar.count > 1) group.append(svg("text", { class: "form-count", x: x + w / 2, y: y + 15, "text-anchor": "middle", text: String(bar.count) }));
  } else if (bar.content === "bar-repeat") {
    group.append(svg("text", { class: "form-same", x: x + w / 2, y: y + HEIGHT / 2 + 6, "text-anchor": "middle", text: "•/•" }));
  }
  group.append(...edge(bar.end, x + w, y));
  if (newRow || !before) group.append(...edge(bar.start !== "none" ? bar.start : "single", x, y));
  else if (bar.start === "repeat-start" && before.end !== "repeat-start" && before.end !== "repeat-both") group.append(...edge("repeat-start", x, y));
  over(group, bar, x, y, w, !newRow && String(before?.ending ?? "") === String(bar.ending ?? ""));
  return group;
}

/**
 * What stands over and under a bar: mark, meter, endings, signs, number.
 *
 * @param {SVGGElement} group
 * @param {RoadBar} bar
 * @param {number} x
 * @param {number} y
 * @param {number} w
 * @param {boolean} goesOn whether the bar before lies under the same ending
 */
function over(group, bar, x, y, w, goesOn) {
  const mark = markText(bar.rehearsal);
  const shown = mark || bar.meter?.printed || bar.count > 1 || bar.number % 4 === 1;
  if (shown) group.append(svg("text", { class: "form-number", x: x + 3, y: y + HEIGHT + 17, text: bar.label ?? String(bar.number) }));
  if (mark) {
    const mw = markWidth(mark);
    group.append(
      svg("rect", { class: "form-mark", x: x + 1, y: y - 32, width: mw, height: 24 }),
      svg("text", { class: "form-mark-text", x: x + 1 + mw / 2, y: y - 14, "text-anchor": "middle", text: mark }),
    );
  }
  if (bar.meter?.printed && !(bar.count > 1 && w < 70)) {
    group.append(svg("text", { class: "form-meter", x: x + 5, y: y + HEIGHT - 6, text: meterText(bar.meter) }));
  }
  const behind = bar.meter?.printed ? 8 + 10 * meterText(bar.meter).length : 5;
  const beside = behind + KEY_WIDTH <= w;
  if (bar.key?.printed) group.append(svg("text", { class: "form-meter", x: x + (beside ? behind : 5), y: y + HEIGHT - (beside ? 6 : 22), text: keySign(bar.key.fifths) }));
  if (bar.ending?.length) bracket(group, bar, x, y, w, goesOn);
  const [start, end] = [signs(bar, true), signs(bar, false)];
  const high = bar.ending?.length ? y + HEIGHT + 17 : y - 12;
  if (start) group.append(svg("text", { class: "form-sign", x: x + markWidth(mark) + (mark ? 5 : 2), y: y - 12, text: start }));
  if (end) group.append(svg("text", { class: "form-sign", x: x + w - 2, y: high, "text-anchor": "end", text: end }));
  if (bar.signs?.includes("fermata")) {
    const cx = x + w - 16;
    group.append(svg("path", { class: "form-hold", d: `M${cx - 9} ${y + 15} a9 9 0 0 1 18 0` }), svg("circle", { class: "form-dot", cx, cy: y + 13, r: 2 }));
  }
}

/**
 * The bracket of an ending; its figure stands only where it begins.
 *
 * @param {SVGGElement} group
 * @param {RoadBar} bar
 * @param {number} x
 * @param {number} y
 * @param {number} w
 * @param {boolean} goesOn whether the bar before lies under the same one
 */
function bracket(group, bar, x, y, w, goesOn) {
  group.append(svg("path", { class: "form-ending", d: goesOn ? `M${x} ${y - 9} H${x + w - 2}` : `M${x + 2} ${y - 1} V${y - 9} H${x + w - 2}` }));
  if (goesOn) return;
  const at = x + markWidth(markText(bar.rehearsal)) + 5;
  group.append(svg("text", { class: "form-ending-text", x: at, y: y - 13, text: `${(bar.ending ?? []).join(", ")}.` }));
}

