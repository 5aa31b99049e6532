import { bookPath } from "../core/api.js";
import { el } from "../core/dom.js";
import { canKeep, keptOf } from "../core/keep.js";
import { count, when } from "../core/words.js";

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

const KEEPS =
  "What you open is kept in this browser, with the pictures of the pages, and works while barmap doesn't run: " +
  "close the window and open it again. It goes with the book when you put that in the bin here.";
const KEEPS_NOT = "Over the local net this browser keeps nothing, because the address is not a secure one. Take the page for a substitute along instead: it is one file and needs no barmap.";

/** @param {string} book whether it works in this browser without the service */
export function withoutService(book) {
  const kept = keptOf(book);
  const now = kept ? `Kept here: ${count(kept.pages, "page")}, as of ${when(kept.at)}.` : "Not all of it is kept here yet: it is fetched while a page of the book is open.";
  return el(
    "section",
    { class: "card", id: "without-service", "aria-label": "Without barmap running" },
    el("h2", { text: "Without barmap running" }),
    el("p", { class: "soft small", text: canKeep() ? KEEPS : KEEPS_NOT }),
    canKeep() ? el("p", { class: "small", text: now }) : null,
  );
}
