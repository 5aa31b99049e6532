/** The answers of a doubt come as text; corrections are numbers, switches and lists. */

const NUMBERS = ["count", "page", "system", "x", "y", "beats", "unit", "fifths", "number", "times"];
const SWITCHES = ["present", "verified"];

/**
 * @param {Record<string, string>} answer
 * @returns {import("../core/types.js").Correction}
 */
export function toCorrection(answer) {
  /** @type {Record<string, unknown>} */
  const made = {};
  for (const [key, value] of Object.entries(answer)) {
    if (NUMBERS.includes(key) && value.trim() !== "" && Number.isFinite(Number(value))) made[key] = Number(value);
    else if (SWITCHES.includes(key)) made[key] = value === "true";
    else if (key === "ending") made[key] = value.split(/[ ,]+/).filter(Boolean).map(Number);
    else made[key] = value;
  }
  return /** @type {import("../core/types.js").Correction} */ (/** @type {unknown} */ (made));
}

/**
 * The correction that says "it is right as it is".
 *
 * @param {import("../core/types.js").Finding} doubt
 * @returns {import("../core/types.js").Correction}
 */
export function dismissal(doubt) {
  return {
    kind: "dismiss-doubt",
    code: doubt.code,
    ...(doubt.bar ? { bar: doubt.bar } : {}),
    ...(doubt.page ? { page: doubt.page } : {}),
  };
}
