import { bookPath } from "../core/api.js";
import { el } from "../core/dom.js";

/** What can be saved, in whose form, and what it is good for. */
const FORMS = [
  ["map", "Bar map", "barmap's own file: every bar with its place on the page"],
  ["musicxml", "MusicXML", "the form without notes, for a notation program"],
  ["csv", "Table of bars", "for a spreadsheet"],
  ["cutlist", "Cut list in words", "to send to the next player"],
  ["errata", "Misprints", "a table for the hirer: what you noted as \"misprint: …\""],
  ["changes", "Changes", "for another barmap"],
  ["plan", "Plan", "order of play, turns, rests, for other programs"],
];

/** @param {string} book what leaves barmap as a file */
export function saveAs(book) {
  return el(
    "details",
    { class: "card save", id: "save-as" },
    el("summary", { text: "Save for other programs and players" }),
    el("p", { class: "soft small", text: "These files hold bar numbers, counts and marks, never a picture of a page." }),
    el(
      "ul",
      { class: "save-list" },
      FORMS.map(([form, name, use]) =>
        el("li", {}, el("a", { class: "btn", href: bookPath(book, `/export/${form}`), download: "", text: name }), el("span", { class: "soft small", text: use })),
      ),
    ),
  );
}
