import { button, el } from "../core/dom.js";
import { icon } from "../core/icons.js";
import { when } from "../core/words.js";
import { dismissal, toCorrection } from "./correction.js";

/** @typedef {import("../core/types.js").Finding} Finding */
/** @typedef {import("../core/types.js").Correction} Correction */

/**
 * The doubts, each one click away from its place and from its answers.
 *
 * @param {Finding[]} doubts
 * @param {{here: number, current?: Finding, go: (doubt: Finding) => void, correct: (c: Correction) => void}} options
 */
export function doubtList(doubts, { here, current, go, correct }) {
  if (doubts.length === 0) {
    return el("p", { class: "empty" }, icon("tick"), " No doubts are open. Look over the page and mark it as checked.");
  }
  return el(
    "ol",
    { class: "doubts" },
    doubts.map((doubt) => {
      const answers = [...(doubt.answers ?? [])];
      if (!answers.some((a) => !a.correction || Object.keys(a.correction).length === 0)) answers.push({ label: "It is right as it is" });
      return el(
        "li",
        { class: `doubt doubt-${doubt.severity}`, "aria-current": doubt === current ? "true" : undefined, "data-code": doubt.code },
        el(
          "button",
          { type: "button", class: "doubt-go", on: { click: () => go(doubt) } },
          icon(doubt.severity === "error" ? "warn" : "doubt"),
          el("span", {}, doubt.page && doubt.page !== here ? el("b", { text: `Page ${doubt.page}: ` }) : null, doubt.text),
        ),
        el(
          "div",
          { class: "choice" },
          answers.map((answer) =>
            button(answer.label, () => {
              const made = answer.correction ?? {};
              correct(Object.keys(made).length ? toCorrection(made) : dismissal(doubt));
            }, { class: "btn" }),
          ),
        ),
      );
    }),
  );
}

/**
 * The doubt that comes after another, round and round.
 *
 * @param {Finding[]} doubts at least one
 * @param {Finding} [now]
 */
export function doubtAfter(doubts, now) {
  const place = doubts.findIndex((d) => d === now || (now && d.code === now.code && d.bar === now.bar));
  return doubts[(place + 1) % doubts.length];
}

/**
 * Who corrected what, newest first.
 *
 * @param {import("../core/types.js").HistoryEntry[]} entries
 */
export function historyList(entries) {
  if (entries.length === 0) return el("p", { class: "empty", text: "Nothing was corrected yet." });
  return el(
    "ol",
    { class: "history" },
    entries.map((entry) =>
      el(
        "li",
        { class: entry.undone ? "undone" : "" },
        el("span", { text: entry.text }),
        el("span", { class: "soft small", text: [entry.undone ? "taken back" : "", entry.who, when(entry.when)].filter(Boolean).join(" · ") }),
      ),
    ),
  );
}
