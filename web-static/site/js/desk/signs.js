import { svg } from "../core/dom.js";
import { SIGN } from "../core/words.js";

/** @typedef {import("../core/types.js").Point} Point */

/**
 * @param {Point} a
 * @param {Point} b
 * @param {number} dx
 * @param {number} width
 */
function stroke([x1, y1], [x2, y2], dx, width) {
  return svg("line", { x1: x1 + dx, y1, x2: x2 + dx, y2, "stroke-width": width });
}

/**
 * A barline as read, drawn over the page.
 *
 * @param {string} type
 * @param {Point} top
 * @param {Point} low
 * @param {number} s staff space
 */
export function barlineSign(type, top, low, s) {
  /** @type {Point} */
  const a = [top[0], top[1] - s * 0.7];
  /** @type {Point} */
  const b = [low[0], low[1] + s * 0.7];
  const group = svg("g", { class: `barline barline-${type}` });
  const thin = s * 0.2;
  const thick = s * 0.5;
  if (type === "none") group.append(stroke(a, b, 0, thin * 0.6));
  else if (type === "double") group.append(stroke(a, b, -s * 0.25, thin), stroke(a, b, s * 0.25, thin));
  else if (type === "final") group.append(stroke(a, b, -s * 0.5, thin), stroke(a, b, 0, thick));
  else if (type.startsWith("repeat")) {
    group.append(stroke(a, b, 0, thick));
    if (type !== "repeat-start") group.append(stroke(a, b, -s * 0.55, thin), ...dots(top, low, -s * 1.1, s));
    if (type !== "repeat-end") group.append(stroke(a, b, s * 0.55, thin), ...dots(top, low, s * 1.1, s));
  } else group.append(stroke(a, b, 0, thin));
  return group;
}

/**
 * @param {Point} top
 * @param {Point} low
 * @param {number} dx
 * @param {number} s
 */
function dots(top, low, dx, s) {
  const x = (top[0] + low[0]) / 2 + dx;
  const y = (top[1] + low[1]) / 2;
  return [-0.5, 0.5].map((k) => svg("circle", { cx: x, cy: y + k * s, r: s * 0.26, class: "barline-dot" }));
}

/**
 * @param {string} text
 * @param {number} size
 */
export function pillWidth(text, size) {
  return Math.max(size * 1.3, text.length * size * 0.62 + size * 0.6);
}

/**
 * Text on a small plate, so that it can be read over any page.
 *
 * @param {string} text
 * @param {number} x middle
 * @param {number} y middle
 * @param {number} size
 * @param {string} kind
 */
export function pill(text, x, y, size, kind) {
  const width = pillWidth(text, size);
  const round = kind.includes("circle") ? width / 2 : size * 0.22;
  return svg(
    "g",
    { class: `pill ${kind}` },
    svg("rect", { x: x - width / 2, y: y - size * 0.68, width, height: size * 1.36, rx: round }),
    svg("text", { x, y: y + size * 0.36, "text-anchor": "middle", "font-size": size, text }),
  );
}

/** @param {import("../core/types.js").Bar} bar */
export function signLabel(bar) {
  const parts = (bar.signs ?? []).map((s) => SIGN[s] ?? s);
  if (bar.times) parts.push(`play ${bar.times}×`);
  return parts.join("  ");
}

/**
 * The bracket of a first or second ending.
 *
 * @param {number[]} which
 * @param {import("../core/types.js").Outline} o
 * @param {number} s
 */
export function ending(which, o, s) {
  const y = Math.min(o[0][1], o[1][1]) - s * 1.2;
  return svg(
    "g",
    { class: "ending" },
    svg("path", { d: `M${o[0][0] + s * 0.2} ${y + s} V${y} H${o[1][0] - s * 0.2}`, "stroke-width": s * 0.15 }),
    svg("text", { x: o[0][0] + s * 0.5, y: y - s * 0.3, "font-size": s * 1.2, text: `${which.join(", ")}.` }),
  );
}
