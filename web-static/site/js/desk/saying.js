import { barName, CONTENT, plain } from "../core/words.js";

/** Keys that say where, not what. */
const PLACES = new Set(["kind", "bar", "page", "system", "who", "outline", "x", "y", "side"]);

/**
 * @param {unknown} body an object, or not
 * @param {string} key
 * @returns {string}
 */
export function textOf(body, key) {
  const value = typeof body === "object" && body !== null ? Reflect.get(body, key) : undefined;
  return typeof value === "string" ? value : "";
}

/**
 * A correction in a few words: "Bar 34: set count, 8", or only what is in it.
 *
 * @param {unknown} correction
 * @param {import("../core/types.js").Bar} [bar] it is about
 */
export function sayCorrection(correction, bar) {
  const said = Object.entries(correction ?? {}).filter(([key]) => !PLACES.has(key));
  const values = said.flatMap(([key, value]) => {
    if (key === "content") return [/** @type {Record<string, string>} */ (CONTENT)[String(value)] ?? String(value)];
    return value === null || typeof value === "object" ? [] : [typeof value === "boolean" ? `${plain(key)}: ${value ? "yes" : "no"}` : String(value)];
  });
  const kind = plain(textOf(correction, "kind"));
  const what = textOf(correction, "kind") === "set-content" ? values.filter((v) => v !== "1").join(", ") : [kind, ...values].filter(Boolean).join(", ");
  return bar ? `Bar ${barName(bar)}: ${what.charAt(0).toLowerCase()}${what.slice(1)}` : what;
}
