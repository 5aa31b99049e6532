import { button, el } from "../core/dom.js";

/** @typedef {import("../core/types.js").PlanFinding} PlanFinding */
/** @typedef {import("../core/types.js").KeptChange} KeptChange */

/**
 * The ways among which a finding asks: the one the plan goes by is marked, one that changes can say is a button.
 *
 * @param {PlanFinding} finding
 * @param {(finding: PlanFinding, instead: KeptChange[], says: string) => void} [answer] absent where nothing can be answered
 */
export function questionBox(finding, answer) {
  const question = finding.question;
  if (!question || question.readings.length < 2) return null;
  const now = question.goesBy ?? 0;
  return el(
    "ul",
    { class: "readings" },
    question.readings.map((reading, i) => {
      const { instead, says, bars } = reading;
      const name = says.charAt(0).toUpperCase() + says.slice(1);
      const way = answer && instead?.length ? button(name, () => answer(finding, instead, says), { class: "btn btn-quiet reading-way" }) : el("span", { class: "reading-way", text: name });
      return el(
        "li",
        { class: i === now ? "reading now" : "reading" },
        way,
        bars ? el("span", { class: "soft small reading-bars", text: bars }) : null,
        i === now ? el("span", { class: "small reading-now", text: "the plan goes by this" }) : null,
      );
    }),
  );
}
