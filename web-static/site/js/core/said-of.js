import { BARLINE, CONTENT, count, plain, SIGN } from "./words.js";

/** @typedef {Record<string, unknown>} Said */

/** What a correction says, where its kind is no word of players. @type {Record<string, (c: Said) => string>} */
const CORRECTIONS = {
  "set-count": (c) => `${count(Number(c.count), "bar")} of rest`,
  "set-content": (c) => (c.content === "multi-rest" ? `${count(Number(c.count), "bar")} of rest` : (CONTENT[String(c.content)] ?? String(c.content)).toLowerCase()),
  "set-rehearsal": (c) => `mark ${String(c.text)}`,
  "move-rehearsal": () => "its mark moved",
  "remove-rehearsal": () => "no mark",
  "set-meter": (c) => `${String(c.beats)}/${String(c.unit)}`,
  "set-number": (c) => `it is bar ${String(c.number)}`,
  "set-label": (c) => `it is called ${String(c.label)}`,
  "set-sign": (c) => `${c.present ? "" : "no "}${SIGN[String(c.sign)] ?? String(c.sign)}`,
  "set-barline": (c) => `${BARLINE[String(c.type)] ?? String(c.type)} barline`.toLowerCase(),
  "add-barline": () => "a barline put in",
  "move-barline": () => "a barline moved",
  "remove-barline": () => "a barline taken out",
  "set-words": () => "its words",
  "start-number": (c) => `No. ${String(c.label)} begins`,
  "verify-page": (c) => (c.verified ? "checked" : "not checked any more"),
  "add-system": () => "a line of music drawn",
  "remove-system": () => "a line taken out",
  "dismiss-doubt": () => "right as it is",
};

/** @param {Said} said @returns {string} what is put in where a bar or a page is named */
function correction(said) {
  const kind = String(said.kind);
  const where = said.page === undefined ? "A bar" : `Page ${String(said.page)}`;
  return `${where}: ${CORRECTIONS[kind]?.(said) ?? plain(kind).toLowerCase()}`;
}

/** @param {Said} said a change of the show in a few words */
function change(said) {
  const has = (/** @type {string} */ key) => (said[key] === undefined ? "" : String(said[key]));
  const bars = [has("first"), has("last")].filter(Boolean).join(" to ");
  const words = ["text", "what", "beats", "label"].map(has).filter(Boolean).join(", ");
  const number = has("number") ? `No. ${has("number")}: ` : "";
  const kind = plain(String(said.kind));
  return `${number}${[number ? kind.toLowerCase() : kind, bars].filter(Boolean).join(" ")}${words ? `: ${words}` : ""}`;
}

/** @param {import("./outbox.js").Waiting} edit in a few words: of a change as the director says it, of a bar without its inner name */
export function saidOf({ method, path, body }) {
  const said = /** @type {Said} */ (body ?? {});
  if (path.endsWith("/settings")) return "You and your turns";
  if (path.endsWith("/marks")) return said.written === false ? "A mark erased" : "A mark written";
  if (Array.isArray(said.changes)) return count(said.changes.length, "change");
  if (/\/corrections|\/line/.test(path)) return correction(said);
  if (typeof said.kind === "string") return change(said);
  if (method === "DELETE") return "A change taken out";
  if (typeof said.on === "boolean") return `A change switched ${said.on ? "on" : "off"}`;
  return /\/changes\//.test(path) ? "A change edited" : "The book's title";
}
