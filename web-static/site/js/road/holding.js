import { field } from "../core/dialog.js";
import { el } from "../core/dom.js";

/**
 * In which shows, and until which day, a change holds; always, where nothing is filled in.
 *
 * @param {string[]} versions those that are known by name
 */
export function holdFields(versions) {
  return el(
    "details",
    { class: "fold", id: "holding" },
    el("summary", { text: "Only in some shows, or until a day" }),
    field("Only in these shows", el("input", { name: "version", maxlength: 40, autocomplete: "off", placeholder: "matinee", list: "versions" }), "May be left empty: then in every one."),
    el("datalist", { id: "versions" }, versions.map((value) => el("option", { value }))),
    field("Until (the last day)", el("input", { name: "until", type: "date" }), "May be left empty: then it stays."),
  );
}

/**
 * @param {FormData} answer
 * @returns {{version?: string, until?: string}}
 */
export function holds(answer) {
  const version = String(answer.get("version") ?? "").trim().toLowerCase();
  const until = String(answer.get("until") ?? "");
  return { ...(version ? { version } : {}), ...(until ? { until } : {}) };
}
