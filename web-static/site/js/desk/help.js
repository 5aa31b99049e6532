import { ask } from "../core/dialog.js";
import { el } from "../core/dom.js";
import { KEYS } from "./keys.js";

/** Shows every key, and what fingers do. */
export function showHelp() {
  const rows = [
    ["1 … 9", "how many bars this rest is (Enter, or wait a moment)"],
    ...KEYS.map((k) => [k.shown, k.does]),
  ];
  void ask("Keys and fingers", [
    el("p", { text: "Tap a bar to choose it. Drag the page to move it, pinch or turn the wheel to zoom. Drag the round handle over a barline to move the barline. Double-click in a bar to add one." }),
    el("p", {}, "Hatched bars with a ", el("b", { text: "?" }), " are unsure: look at those first."),
    el("table", { class: "keys" }, el("tbody", {}, rows.map(([key, does]) => el("tr", {}, el("th", { scope: "row" }, el("kbd", { text: key })), el("td", { text: does }))))),
  ]);
}
