import { button, el } from "../core/dom.js";
import { icon } from "../core/icons.js";
import { when } from "../core/words.js";
import { historyList } from "../shared/lists.js";
import { sentence } from "./kinds.js";

/** @typedef {import("../core/types.js").KeptChange} Change */

/**
 * The show's changes, newest last, as the director gave them.
 *
 * @param {Change[]} changes
 * @param {import("../core/types.js").History} history
 * @param {{toggle: (c: Change, on: boolean) => void, edit: (c: Change) => void, remove: (c: Change) => void, undo: () => void, redo: () => void}} actions
 */
export function changeList(changes, history, actions) {
  const head = el(
    "div",
    { class: "row between" },
    el("h2", { text: "Changes" }),
    el(
      "div",
      { class: "row" },
      button("", actions.undo, { class: "btn btn-icon", id: "undo-change", disabled: history.undo === 0, "aria-label": "Take back the last step", title: "Take back" }, icon("undo")),
      button("", actions.redo, { class: "btn btn-icon", id: "redo-change", disabled: history.redo === 0, "aria-label": "Do it again", title: "Do it again" }, icon("redo")),
    ),
  );
  const past = history.entries.length
    ? el("details", { class: "past" }, el("summary", { text: "Who changed what, and when" }), historyList(history.entries))
    : null;
  const since = el("a", { class: "btn btn-quiet", href: `/turns.html${location.search}#since`, text: "What changed since …" });
  if (changes.length === 0) {
    return el("div", {}, head, el("p", { class: "soft", text: "The show runs as printed. Choose two bars in the form, or say the change in words." }), since, past);
  }
  return el(
    "div",
    {},
    head,
    el(
      "ul",
      { class: "changes" },
      changes.map((change) => {
        const on = change.on !== false;
        const text = sentence(change);
        const box = el("input", { type: "checkbox", "aria-label": `${text}: counts`, checked: on, on: { change: () => actions.toggle(change, box.checked) } });
        return el(
          "li",
          { class: on ? "change" : "change off", "data-change": change.id },
          el("label", { class: "change-switch" }, box),
          el(
            "div",
            { class: "change-text" },
            el("span", { text }),
            change.note ? el("span", { class: "soft small", text: change.note }) : null,
            el("span", { class: "soft small", text: [on ? "" : "switched off", change.who, change.when ? when(change.when) : ""].filter(Boolean).join(" · ") }),
          ),
          button("", () => actions.edit(change), { class: "btn btn-icon", "data-edit": change.id, "aria-label": `In which shows, until when: ${text}`, title: "In which shows, until when" }, icon("pencil")),
          button("", () => actions.remove(change), { class: "btn btn-icon", "aria-label": `Delete: ${text}`, title: "Delete" }, icon("bin")),
        );
      }),
    ),
    since,
    past,
  );
}
