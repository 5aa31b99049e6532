import { plain } from "./words.js";

/** @param {import("./outbox.js").Waiting} edit in a few words: of a change as the director says it, of a bar without its inner name */
export function saidOf({ method, path, body }) {
  const said = /** @type {Record<string, unknown>} */ (body ?? {});
  const has = (/** @type {string} */ key) => (said[key] === undefined ? "" : String(said[key]));
  if (path.endsWith("/settings")) return "You and your turns";
  if (path.endsWith("/marks")) return said.written === false ? "A mark erased" : "A mark written";
  if (Array.isArray(said.changes)) return `${said.changes.length} changes`;
  if (typeof said.kind !== "string") return method === "DELETE" ? "A change taken out" : said.on === false ? "A change switched off" : said.on === true ? "A change switched on" : /\/changes\//.test(path) ? "A change edited" : "The book's title";
  const number = has("number") && !path.includes("/corrections") ? `No. ${has("number")}: ` : "";
  const bars = [has("first"), has("last")].filter(Boolean).join(" to ");
  const words = ["text", "what", "content", "count", "beats", "label"].map(has).filter(Boolean).join(", ");
  const kind = plain(said.kind).toLowerCase();
  const what = number || !/\/corrections|\/line/.test(path) ? kind : `${said.bar === undefined ? "the page" : "a bar"}: ${kind}`;
  const text = `${number}${[what, bars].filter(Boolean).join(" ")}${words ? `: ${words}` : ""}`;
  return text.charAt(0).toUpperCase() + text.slice(1);
}
