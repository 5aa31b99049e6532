import { button, el } from "../core/dom.js";
import { CORRECTORS } from "../core/may.js";
import { count } from "../core/words.js";

/**
 * How much of the book somebody has looked at.
 *
 * @param {{pages: number, of: number}|undefined} checked
 */
export function checkedText(checked) {
  if (!checked?.of || checked.pages === checked.of) return null;
  return el("p", { class: "soft small", id: "checked", text: `${checked.pages} of ${count(checked.of, "page")} checked. What hangs on the others says so.` });
}

/**
 * Where nothing says how the first page lies, that is asked once, before everything that hangs on it.
 *
 * @param {import("../core/types.js").PlanFinding[]} findings
 * @param {() => void} answer
 */
export function sideQuestion(findings, answer) {
  const asked = findings.find((f) => f.code === "first-page");
  return asked ? el("div", { class: "care", id: "first-page" }, el("p", { text: asked.text }), button("Say how the pages lie", answer, CORRECTORS)) : null;
}

/**
 * What something hangs on that nobody has looked at, in one calm line.
 *
 * @param {string[]|undefined} unsure
 */
export function unsureText(unsure) {
  return unsure?.length ? el("p", { class: "unsure soft small", text: `Not checked: ${unsure.join("; ")}.` }) : null;
}
