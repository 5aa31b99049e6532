import { el } from "../core/dom.js";
import { count } from "../core/words.js";

/** @typedef {import("../core/types.js").Finding} Finding */

/**
 * What a book that came from a score file leaves out, and what the file says that a bar map can't.
 *
 * @param {Finding[]} findings
 * @returns {HTMLElement|null} nothing for a book of photographs
 */
export function scoreRemarks(findings) {
  const said = findings.filter((f) => f.code.startsWith("score-") && f.severity === "info");
  if (said.length === 0) return null;
  return el(
    "details",
    { class: "card save", id: "score-remarks" },
    el("summary", { text: `From a score file: ${count(said.length, "remark")}` }),
    el("ul", {}, said.map((f) => el("li", { text: `${f.page ? `Page ${f.page}, line ${f.system}: ` : ""}${f.text}.` }))),
  );
}
