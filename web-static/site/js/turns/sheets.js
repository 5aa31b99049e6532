import { bookPath } from "../core/api.js";
import { el } from "../core/dom.js";
import { recall, remember } from "../core/store.js";

const SHEETS = [
  ["run", "Run sheet"],
  ["stand", "For the stand, number by number"],
  ["substitute", "For a substitute"],
  ["turns", "Turns"],
  ["rests", "Rests"],
  ["changes", "Changes"],
  ["pencil", "Marks to write"],
  ["erase", "Marks to erase"],
  ["strips", "Strips for added bars"],
  ["errata", "Misprints, for the hirer"],
];

/**
 * Links to the printed sheets, with paper and type size.
 *
 * @param {string} book
 */
export function sheetLinks(book) {
  const paper = el("select", { "aria-label": "Paper" }, ["A4", "Letter"].map((p) => el("option", { value: p, text: p })));
  paper.value = recall("paper-size", "A4");
  const big = el("input", { type: "checkbox", checked: recall("big-type", false) });
  const crops = el("input", { type: "checkbox", checked: recall("turn-crops", true) });
  const links = SHEETS.map(([kind, name]) => ({ kind, link: el("a", { class: "btn", text: name, target: "_blank", rel: "noopener" }) }));
  const point = () => {
    remember("paper-size", paper.value);
    remember("big-type", big.checked);
    remember("turn-crops", crops.checked);
    for (const { kind, link } of links) {
      link.href = bookPath(book, `/sheets/${kind}.pdf?paper=${paper.value}${big.checked ? "&big=true" : ""}${kind === "turns" && !crops.checked ? "&crops=false" : ""}`);
    }
  };
  paper.addEventListener("change", point);
  big.addEventListener("change", point);
  crops.addEventListener("change", point);
  point();
  return el(
    "section",
    { class: "card", "aria-label": "Sheets to print" },
    el("h2", { text: "Sheets to print" }),
    el("div", { class: "row sheet-links" }, links.map((l) => l.link)),
    el("div", { class: "row" }, el("label", { class: "inline-field" }, "Paper ", paper), el("label", { class: "tick-line" }, big, el("span", { text: "Large type" }))),
    el("label", { class: "tick-line" }, crops, el("span", { text: "On the turn slips, what comes first after each turn, as it stands on the page" })),
    el("p", {}, el("a", { class: "btn", href: bookPath(book, "/export/substitute"), download: "", text: "For a substitute, as one page for a phone" })),
    el("p", { class: "soft small", text: "A line printed from a hired book is a copy, also for your own turn: the hire agreement decides. Ask the hirer or the show's librarian." }),
  );
}
