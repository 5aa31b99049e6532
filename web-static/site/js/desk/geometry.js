/** @typedef {import("../core/types.js").Point} Point */
/** @typedef {import("../core/types.js").Outline} Outline */
/** @typedef {import("../core/types.js").Bar} Bar */

/** @param {Outline} outline */
export function centre(outline) {
  const x = outline.reduce((sum, p) => sum + p[0], 0) / outline.length;
  const y = outline.reduce((sum, p) => sum + p[1], 0) / outline.length;
  return /** @type {Point} */ ([x, y]);
}

/**
 * The same outline, taller by `extra` at top and bottom: easier to hit with a finger.
 *
 * @param {Outline} o
 * @param {number} extra
 * @returns {Outline}
 */
export function taller(o, extra) {
  return [
    [o[0][0], o[0][1] - extra],
    [o[1][0], o[1][1] - extra],
    [o[2][0], o[2][1] + extra],
    [o[3][0], o[3][1] + extra],
  ];
}

/** @param {Outline} outline */
export function points(outline) {
  return outline.map((p) => p.join(",")).join(" ");
}

/**
 * @param {Outline} outline
 * @param {Point} p
 */
export function holds(outline, [x, y]) {
  let inside = false;
  for (let i = 0, j = outline.length - 1; i < outline.length; j = i++) {
    const [xi, yi] = outline[i];
    const [xj, yj] = outline[j];
    if (yi > y !== yj > y && x < ((xj - xi) * (y - yi)) / (yj - yi) + xi) inside = !inside;
  }
  return inside;
}

/**
 * Where a vertical drawn at `x` crosses an outline, for a new barline.
 *
 * @param {Outline} o
 * @param {number} x
 * @returns {[Point, Point]} top and bottom
 */
export function crossing(o, x) {
  const at = (/** @type {Point} */ a, /** @type {Point} */ b) => {
    const t = b[0] === a[0] ? 0 : (x - a[0]) / (b[0] - a[0]);
    return a[1] + t * (b[1] - a[1]);
  };
  return [
    [x, at(o[0], o[1])],
    [x, at(o[3], o[2])],
  ];
}

/**
 * The bar reached by a step of the arrow keys.
 *
 * @param {Bar[]} bars of one page, in reading order
 * @param {Bar|undefined} from
 * @param {"left"|"right"|"up"|"down"} way
 * @returns {Bar|undefined}
 */
export function neighbour(bars, from, way) {
  if (!from) return bars[0];
  const place = bars.findIndex((b) => b.id === from.id);
  if (way === "left") return bars[place - 1];
  if (way === "right") return bars[place + 1];
  const step = way === "up" ? -1 : 1;
  return nearest(bars.filter((b) => b.system === from.system + step), from);
}

/**
 * The bar whose middle lies nearest to that of another, across the page.
 *
 * @param {Bar[]} bars
 * @param {Bar} to
 * @returns {Bar|undefined}
 */
export function nearest(bars, to) {
  const x = centre(to.outline)[0];
  const far = (/** @type {Bar} */ b) => Math.abs(centre(b.outline)[0] - x);
  return [...bars].sort((a, b) => far(a) - far(b))[0];
}
