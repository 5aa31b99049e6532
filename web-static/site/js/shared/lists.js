import { el } from "../core/dom.js";
import { icon } from "../core/icons.js";
import { when } from "../core/words.js";
import { questionBox } from "./question.js";

/**
 * What a change leads to, or what speaks against a plan.
 *
 * @param {import("../core/types.js").PlanFinding[]} checks
 * @param {(bar: string) => string} [name] says where a bar is
 * @param {Parameters<typeof questionBox>[1]} [answer] what a question is answered with; absent where it can't be answered
 */
export function checkList(checks, name = () => "", answer = undefined) {
  if (checks.length === 0) return null;
  const said = checks.map((c) => ({ ...c, text: [c.at ? name(c.at) : "", c.text].filter(Boolean).join(": ") }));
  return el("ul", { class: "checks" }, said.map((c) => el("li", { class: `check-${c.severity}`, "data-check": c.code }, icon(c.severity === "info" ? "doubt" : "warn"), el("div", {}, el("span", { text: c.text }), questionBox(c, answer)))));
}

/**
 * Who did what, newest first.
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
        el("span", { class: "soft small", text: [entry.undone ? "taken back" : "", entry.waits ? "waits to be sent" : "", entry.who, when(entry.when)].filter(Boolean).join(" · ") }),
      ),
    ),
  );
}
