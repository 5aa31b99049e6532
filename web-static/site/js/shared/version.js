import { el } from "../core/dom.js";
import { mayCorrect } from "../core/may.js";
import { keepSettings } from "./settings.js";

/** @typedef {import("../core/types.js").Settings} Settings */
/** @typedef {import("../core/types.js").KeptChange} KeptChange */

/**
 * The versions of the show that are known by name.
 *
 * @param {KeptChange[]} changes
 * @param {Settings|undefined} settings
 */
export function versionsOf(changes, settings) {
  const names = [...changes.map((c) => c.version ?? ""), settings?.version ?? ""].map((n) => n.trim().toLowerCase());
  return [...new Set(names)].filter(Boolean).sort((a, b) => a.localeCompare(b));
}

/**
 * Says which version of the show the plan is for; absent where there is only one.
 *
 * @param {string} book
 * @param {Settings|undefined} settings
 * @param {KeptChange[]} changes
 * @param {() => void} done it is another one now
 */
export function versionSwitch(book, settings, changes, done) {
  const versions = versionsOf(changes, settings);
  if (versions.length === 0) return null;
  const box = el(
    "select",
    { id: "version", disabled: !mayCorrect(), on: { change: () => void keepSettings(book, () => ({ version: box.value || null })).then(done) } },
    [["", "not said"], ...versions.map((v) => [v, v])].map(([value, text]) => el("option", { value, text, selected: value === (settings?.version ?? "").toLowerCase() })),
  );
  return el("label", { class: "row version-switch" }, el("span", { text: "The show is played as" }), box);
}
