import { button, el } from "../core/dom.js";

/** @typedef {import("../core/types.js").PlanFinding} PlanFinding */
/** @typedef {import("../core/types.js").KeptChange} KeptChange */

/** Where no change says it, the field of "You and your turns" that does; by the code of the finding. */
const SETTING = /** @type {Record<string, [string, string]>} */ ({
  "first-page": ["firstPage", "Say how the pages lie"],
  "in-hand": ["inHand", "Say it for the whole book"],
});

/**
 * The ways among which a finding asks: the one the plan goes by is marked, one that changes can say is a button. What the
 * book or the player settles leads to where that is said.
 *
 * @param {PlanFinding} finding
 * @param {(finding: PlanFinding, instead: KeptChange[], says: string) => void} [answer] absent where nothing can be answered
 */
export function questionBox(finding, answer) {
  const question = finding.question;
  if (!question || question.readings.length === 0) return null;
  const now = question.goesBy ?? 0;
  const setting = answer ? place(finding) : null;
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
        bars && !says.includes(bars) ? el("span", { class: "soft small reading-bars", text: bars }) : null,
        i === now ? el("span", { class: "small reading-now", text: "the plan goes by this" }) : null,
      );
    }),
    setting ? el("li", { class: "reading" }, setting) : null,
  );
}

/** @param {PlanFinding} finding */
function place({ code, question }) {
  const book = location.search;
  const [field, text] = SETTING[code] ?? [];
  if (field) return el("a", { class: "btn btn-quiet reading-place", href: `/turns.html${book}#settings-${field}`, text });
  if (question?.topic === "meter") return el("a", { class: "btn btn-quiet reading-place", href: `/desk.html${book}`, text: "Set the meter in the map" });
  return null;
}
