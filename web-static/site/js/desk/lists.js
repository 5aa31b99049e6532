import { button, el } from "../core/dom.js";
import { icon } from "../core/icons.js";
import { CORRECTORS, mayCorrect } from "../core/may.js";
import { count } from "../core/words.js";
import { dismissal, toCorrection } from "./correction.js";
import { answersBesides, followsText, otherAnswer, whenSeen } from "./other.js";

/** More than this is not looked at in one go. */
const SHOWN = 30;

/** @typedef {import("../core/types.js").Finding} Finding */
/** @typedef {import("../core/types.js").Correction} Correction */

/** @typedef {{here: number, current?: Finding, go: (doubt: Finding) => void, correct: (c: Correction) => Promise<boolean>, check: (list: Correction[]) => Promise<import("../core/types.js").Consequence[]>, show: (doubt: Finding) => void}} DoubtOptions */

/**
 * The doubts, each one click away from its place and from its answers.
 *
 * @param {Finding[]} doubts
 * @param {DoubtOptions} options
 */
export function doubtList(doubts, options) {
  const { here, current } = options;
  if (doubts.length === 0) {
    return el("p", { class: "empty" }, icon("tick"), ` No doubts are open.${mayCorrect() ? " Look over the page and mark it as checked." : ""}`);
  }
  const sorted = pageFirst(doubts, here);
  const first = current && doubts.includes(current) ? sorted.indexOf(current) : 0;
  const from = Math.max(0, Math.min(first - 2, sorted.length - SHOWN));
  const shown = sorted.slice(from, from + SHOWN);
  const onPage = doubts.filter((d) => d.page === here).length;
  return el(
    "div",
    {},
    el("p", { class: "soft small", text: `${count(onPage, "doubt")} on this page, ${doubts.length - onPage} on others.` }),
    el("ol", { class: "doubts" }, shown.map((doubt) => doubtItem(doubt, options))),
    sorted.length > shown.length ? el("p", { class: "soft small", text: `And ${sorted.length - shown.length} more; they come up as these are answered.` }) : null,
  );
}

/**
 * @param {Finding} doubt
 * @param {DoubtOptions} options
 */
function doubtItem(doubt, { here, current, go, correct, check, show }) {
  const answers = [...(doubt.answers ?? []), ...answersBesides(doubt)];
  if (!answers.some((a) => !a.correction || Object.keys(a.correction).length === 0)) answers.push({ label: "It is right as it is" });
  const meant = answers.map((answer) => (answer.correction && Object.keys(answer.correction).length ? toCorrection(answer.correction) : dismissal(doubt)));
  const item = el(
    "li",
    { class: `doubt doubt-${doubt.severity}`, "aria-current": doubt === current ? "true" : undefined, "data-code": doubt.code, "data-bar": doubt.bar },
    el(
      "button",
      { type: "button", class: "doubt-go", on: { click: () => go(doubt) } },
      icon(doubt.severity === "error" ? "warn" : "doubt"),
      el("span", {}, doubt.page && doubt.page !== here ? el("b", { text: `Page ${doubt.page}: ` }) : null, doubt.text),
    ),
  );
  // one answer is one step: the next press waits for what comes of this one
  const take = (/** @type {Correction} */ correction) => {
    for (const one of item.querySelectorAll("button, input")) one.toggleAttribute("disabled", true);
    void correct(correction).then((made) => {
      if (!made) for (const one of item.querySelectorAll("button, input")) one.toggleAttribute("disabled", false);
    });
  };
  const follows = answers.map(() => el("span", { class: "follows soft small", text: "…" }));
  if (doubt.severity === "error" && doubt.page) item.append(el("p", { class: "soft small", text: `Page ${doubt.page} was checked, and this speaks against it.` }));
  const hand = doubt === current;
  const taking = (/** @type {string} */ label, /** @type {number} */ i) =>
    hand
      ? button("", () => take(meant[i]), { class: "btn btn-answer", id: `answer-${i + 1}` }, el("kbd", { "aria-hidden": "true", text: String(i + 1) }), el("span", { text: label }))
      : button(label, () => take(meant[i]), { class: "btn" });
  item.append(
    el("div", { class: "answers", ...CORRECTORS }, answers.map((answer, i) => el("div", { class: "answer" }, taking(answer.label, i), follows[i]))),
    el("div", CORRECTORS, otherAnswer(doubt, take, check, () => show(doubt))),
  );
  whenSeen(item, () => {
    check(meant).then((found) => found.forEach((f, i) => (follows[i].textContent = followsText(f))), () => follows.forEach((f) => (f.textContent = "")));
  });
  return item;
}

/**
 * One page's doubts first, then the others, each in the service's order: most bars at stake first.
 *
 * @param {Finding[]} doubts
 * @param {number} page
 */
function pageFirst(doubts, page) {
  return [...doubts.filter((d) => d.page === page), ...doubts.filter((d) => d.page !== page)];
}

/**
 * The doubt that comes after another, round and round.
 *
 * @param {Finding[]} doubts at least one
 * @param {number} page at hand
 * @param {Finding} [now]
 */
export function doubtAfter(doubts, page, now) {
  const sorted = pageFirst(doubts, page);
  const place = sorted.findIndex((d) => d === now || (now && d.code === now.code && d.bar === now.bar));
  return sorted[(place + 1) % sorted.length];
}
