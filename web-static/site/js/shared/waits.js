import { el } from "../core/dom.js";
import { icon } from "../core/icons.js";
import { count } from "../core/words.js";

/**
 * Says calmly that edits wait to be sent, and what is not worked out with them yet.
 *
 * @param {number|undefined} edits
 * @param {string} not what doesn't have them: "Turns, rests and times below don't have them yet; they are worked out when it answers."
 * @param {string} [one] what one of them is called
 */
export function waitsLine(edits, not, one = "edit") {
  if (!edits) return null;
  return el("p", { class: "waits-line", role: "note" }, icon("waits"), el("span", { text: `${count(edits, one)} ${edits === 1 ? "waits" : "wait"} for barmap to answer. ${not}` }));
}

/** @param {number|undefined} edits that the plan on this page doesn't have */
export function planWaitsLine(edits) {
  return waitsLine(edits, "This plan is the one from before: turns, rests and times with them are worked out when it answers.");
}

/** Stands beside one thing that waits. */
export function waitsSign() {
  return el("span", { class: "waits-sign" }, icon("waits"), el("span", { text: "waits to be sent" }));
}
