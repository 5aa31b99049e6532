import { el } from "../core/dom.js";
import { signButton } from "../core/icons.js";
import { CORRECTORS, mayCorrect } from "../core/may.js";
import { numberName, numberNo, when } from "../core/words.js";
import { historyList } from "../shared/lists.js";
import { partName } from "../shared/theirs.js";
import { waitsSign } from "../shared/waits.js";
import { insteadOf } from "./instead.js";
import { KINDS, sentence } from "./kinds.js";

/** @typedef {import("../core/types.js").KeptChange} Change */

/** @typedef {{toggle: (c: Change, on: boolean) => void, edit: (c: Change) => void, remove: (c: Change) => void, undo: () => void, redo: () => void}} Actions */

/**
 * The show's changes number by number in the order of the night, what is about the whole show first; within each the newest last.
 *
 * @param {Change[]} changes
 * @param {import("../core/types.js").RoadNumber[]} numbers in the order of the night
 * @returns {{name: string, changes: Change[]}[]}
 */
function byNumber(changes, numbers) {
  const names = new Map(numbers.map((n) => [n.label.toLowerCase(), numberName(n)]));
  /** @type {Map<string, Change[]>} */
  const groups = new Map([["", []], ...numbers.map((n) => /** @type {[string, Change[]]} */ ([n.label.toLowerCase(), []]))]);
  for (const change of changes) {
    const label = (change.number ?? "").trim().toLowerCase();
    groups.set(label, [...(groups.get(label) ?? []), change]);
  }
  return [...groups].filter(([, some]) => some.length).map(([label, some]) => ({ name: label ? (names.get(label) ?? numberNo(some[0].number ?? "")) : "The whole show", changes: some }));
}

/**
 * The show's changes as the director gave them, by number.
 *
 * @param {Change[]} changes
 * @param {import("../core/types.js").RoadNumber[]} numbers in the order of the night
 * @param {import("../core/types.js").History} history
 * @param {import("../core/types.js").Align} beside the other part, with what the bars are called there
 * @param {Actions} actions
 */
export function changeList(changes, numbers, history, beside, actions) {
  const head = el(
    "div",
    { class: "row between" },
    el("h2", { text: "Changes" }),
    el(
      "div",
      { class: "row", ...CORRECTORS },
      signButton("undo", "Take back", actions.undo, { id: "undo-change", disabled: history.undo === 0, "aria-label": "Take back the last step" }),
      signButton("redo", "Again", actions.redo, { id: "redo-change", disabled: history.redo === 0, "aria-label": "Do it again" }),
    ),
  );
  const past = history.entries.length
    ? el("details", { class: "past" }, el("summary", { text: "Who changed what, and when" }), historyList(history.entries))
    : null;
  const parts = otherPart(beside);
  const since = el("a", { class: "btn btn-quiet", href: `/turns.html${location.search}#since`, text: "What changed since …" });
  if (changes.length === 0) {
    return el("div", {}, head, el("p", { class: "soft", text: mayCorrect() ? "The show runs as printed. Choose two bars in the form, or say the change in words." : "The show runs as printed." }), since, parts, past);
  }
  return el(
    "div",
    {},
    head,
    byNumber(changes, numbers).flatMap((group, _, all) => [
      all.length > 1 || numbers.length > 1 ? el("h3", { class: "change-number", text: group.name }) : null,
      el("ul", { class: "changes" }, group.changes.map((change) => item(change, numbers.length > 1, beside, actions, insteadOf(change, changes)))),
    ]),
    since,
    parts,
    past,
  );
}

/**
 * The way to the other part; whoever may not choose one is told that there is none.
 *
 * @param {import("../core/types.js").Align} beside
 */
function otherPart(beside) {
  if (!beside.other && (beside.may ?? "choose") !== "choose") {
    return el("p", { class: "soft small", id: "no-other-part", text: "No other part lies beside this one. Whoever has the shelf can choose one." });
  }
  return el("a", { class: "btn btn-quiet", href: `/align.html${location.search}`, text: beside.other ? `Beside ${partName(beside.other)}` : "Beside the director's part" });
}

/**
 * @param {Change} change
 * @param {boolean} under whether its number stands over it
 * @param {import("../core/types.js").Align} beside
 * @param {Actions} actions
 * @param {ReturnType<typeof insteadOf>} instead what stands in its place
 */
function item(change, under, beside, actions, instead) {
  const bars = beside.changes?.[change.id];
  const on = change.on !== false;
  const counts = on && !instead?.always;
  const text = sentence(change);
  const shown = under && change.number ? text.slice(text.indexOf(": ") + 2) : text;
  const box = el("input", { type: "checkbox", "aria-label": `${text}: counts`, checked: on, disabled: !mayCorrect(), on: { change: () => actions.toggle(change, box.checked) } });
  return el(
    "li",
    { class: counts ? "change" : "change off", "data-change": change.id },
    el("label", { class: "change-switch" }, box),
    el(
      "div",
      { class: "change-text" },
      el("span", { text: shown }),
      bars && beside.other ? el("span", { class: "soft small change-beside", text: `${partName(beside.other)}: ${bars}` }) : null,
      change.note && !KINDS[change.kind]?.noted ? el("span", { class: "soft small", text: change.note }) : null,
      on && instead ? el("span", { class: "soft small change-instead", text: `${counts ? "In some shows" : "Now"}: ${sentence(instead.by)}` }) : null,
      change.waits ? waitsSign() : null,
      el("span", { class: "soft small", text: [on ? "" : "switched off", change.who, change.when ? when(change.when) : ""].filter(Boolean).join(" · ") }),
    ),
    signButton("pencil", "Edit", () => actions.edit(change), { ...CORRECTORS, "data-edit": change.id, "aria-label": `Edit: ${text}` }),
    signButton("bin", "Delete", () => actions.remove(change), { ...CORRECTORS, "aria-label": `Delete: ${text}` }),
  );
}
