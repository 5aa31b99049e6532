import { field } from "../core/dialog.js";
import { el } from "../core/dom.js";

/** @typedef {import("./kinds.js").Change} Change */

/**
 * In which shows, and on which days, a change holds; always, where nothing is filled in.
 *
 * @param {string[]} versions those that are known by name
 * @param {Partial<Change>} [now] what is said already
 */
function fields(versions, now = {}) {
  return [
    field("Only in these shows", el("input", { name: "version", maxlength: 40, autocomplete: "off", placeholder: "matinee", list: "versions", value: now.version ?? "" }), "May be left empty: then in every one."),
    el("datalist", { id: "versions" }, versions.map((value) => el("option", { value }))),
    field("From (the first day)", el("input", { name: "since", type: "date", value: now.since ?? "" }), "May be left empty: then from now on."),
    field("Until (the last day)", el("input", { name: "until", type: "date", value: now.until ?? "" }), "May be left empty: then it stays."),
  ];
}

/**
 * The fields for a change that is made.
 *
 * @param {string[]} versions
 */
export function holdFields(versions) {
  return el("details", { class: "fold", id: "holding" }, el("summary", { text: "Only in some shows, or on some days" }), fields(versions));
}

/**
 * The fields for a change that is there already.
 *
 * @param {string[]} versions
 * @param {Change} change
 */
export function editFields(versions, change) {
  return [...fields(versions, change), field("Note", el("input", { name: "note", maxlength: 300, autocomplete: "off", value: change.note ?? "" }))];
}

/**
 * @param {FormData} answer
 * @returns {{version?: string, since?: string, until?: string}}
 */
export function holds(answer) {
  const { version, since, until } = edited(answer);
  return { ...(version ? { version } : {}), ...(since ? { since } : {}), ...(until ? { until } : {}) };
}

/**
 * What an edited change holds; null takes out what was said before.
 *
 * @param {FormData} answer
 * @returns {{version: string|null, since: string|null, until: string|null, note: string|null}}
 */
export function edited(answer) {
  const said = (/** @type {string} */ name) => String(answer.get(name) ?? "").trim();
  return { version: said("version").toLowerCase() || null, since: said("since") || null, until: said("until") || null, note: said("note") || null };
}
