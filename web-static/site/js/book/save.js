import { bookPath } from "../core/api.js";
import { button, el } from "../core/dom.js";
import { canKeep, keptOf } from "../core/keep.js";
import { CORRECTORS, OWNERS } from "../core/may.js";
import { complain, toast } from "../core/toast.js";
import { count, when } from "../core/words.js";
import { changesIn, takeChanges } from "../shared/taking.js";
import { clickFile, musicXml } from "./notation.js";

const PROGRAMS = "For other programs";

/** What can be saved, for whom, in whose form, and what it is good for. */
const GROUPS = /** @type {const} */ ([
  ["For players", [
    ["substitute", "For a substitute", "one page to read and to play from: no network, no barmap, no pictures; from a disk or a phone"],
    ["cutlist", "Cut list in words", "to send to the next player"],
    ["changes", "Changes", "to send to a section mate: what the director changed and your notes, no pages and no pictures"],
  ]],
  ["For a spreadsheet", [
    ["xlsx", "Workbook", "a sheet each for bars, numbers, changes, turns, rests and marks to write (.xlsx)"],
    ["errata", "Misprints", "a table for the hirer: what you noted as \"misprint: …\""],
  ]],
  [PROGRAMS, [
    ["map", "Bar map", "barmap's own file: every bar with its place on the page"],
    ["mei", "MEI", "the structure with the place of every bar on its page"],
    ["plan", "Plan", "order of play, turns, rests"],
  ]],
]);

/** Each sheet of the workbook as a table of its own. */
const TABLES = ["bars", "numbers", "changes", "turns", "rests", "marks"];

const PICTURES = "With the pictures of the pages: of a rented book that is a copy, and the hire agreement decides whether you may make it and who may have it. Ask the hirer or the show's librarian.";

/** @param {string} book all of it in one file, without pictures unless they are asked for */
function packed(book) {
  const tick = el("input", { type: "checkbox", id: "pack-pictures" });
  const link = el("a", { class: "btn btn-main", id: "pack", download: "", text: "The whole book in one file" });
  const point = () => (link.href = bookPath(book, `/pack${tick.checked ? "?pictures=true" : ""}`));
  tick.addEventListener("change", point);
  point();
  return el(
    "li",
    { class: "save-whole", ...OWNERS },
    link,
    el("span", { class: "soft small", text: "bars, changes, notes and settings, to go on with in another barmap: drop the file on its shelf" }),
    el("label", { class: "tick-line small" }, tick, el("span", { text: PICTURES })),
  );
}

/** @param {string} book the other way: what a section mate sent */
function taking(book) {
  const input = el("input", { type: "file", id: "take-changes", accept: ".json,application/json", class: "visually-hidden", tabindex: -1, "aria-label": "A file of changes" });
  const take = async (/** @type {File} */ file) => {
    const said = await changesIn(file);
    if (said) await takeChanges(book, file.name, said);
    else toast(`${file.name} is no list of changes: they are saved with "Changes" on this page.`, { kind: "bad" });
  };
  input.addEventListener("change", () => {
    const file = input.files?.[0];
    input.value = "";
    if (file) void take(file).catch(complain);
  });
  return el("li", CORRECTORS, button("Take changes in", () => input.click(), { id: "take-changes-go" }), el("span", { class: "soft small", text: "a section mate's file of changes: read back to you line by line before anything is taken" }), input);
}

/** @param {string} book */
function tables(book) {
  return el(
    "li",
    { class: "save-tables" },
    el("span", { text: "One table (CSV)" }),
    el("span", { class: "row" }, TABLES.map((name) => el("a", { class: "btn btn-quiet", href: bookPath(book, `/export/table-${name}`), download: "", text: name }))),
  );
}

/** @param {string} book what leaves barmap as a file */
export function saveAs(book) {
  return el(
    "details",
    { class: "card save", id: "save-as" },
    el("summary", { text: "Save it: for players, a spreadsheet, other programs" }),
    el("p", { class: "soft small", text: "These files hold bar numbers, counts and marks; a picture of a page only where you ask for it." }),
    el("ul", { class: "save-list" }, packed(book)),
    GROUPS.map(([name, forms]) => {
      const list = el(
        "ul",
        { class: "save-list" },
        forms.map(([form, called, use]) =>
          el("li", {}, el("a", { class: "btn", href: bookPath(book, `/export/${form}`), download: "", text: called }), el("span", { class: "soft small", text: use })),
        ),
        name === "For players" ? taking(book) : null,
        name === "For a spreadsheet" ? tables(book) : null,
        name === PROGRAMS ? [musicXml(book), clickFile(book)] : null,
      );
      // what few want takes no room until it is wanted
      return name === PROGRAMS ? el("details", { class: "save-fold", id: "save-programs" }, el("summary", { text: name }), list) : el("div", {}, el("h3", { class: "save-group", text: name }), list);
    }),
  );
}

const KEEPS =
  "What you open is kept in this browser, with the pictures of the pages, and works while barmap doesn't run: " +
  "close the window and open it again. What you change then is seen at once, waits in this browser, and is sent when barmap answers. It goes with the book when you put that in the bin here.";
const KEEPS_NOT = "Over the local net this browser keeps nothing, because the address is not a secure one. Take the page for a substitute along instead: it is one file and needs no barmap.";

/** @param {string} book whether it works in this browser without the service */
export function withoutService(book) {
  const kept = keptOf(book);
  const now = kept ? `Kept here: ${count(kept.pages, "page")}, as of ${when(kept.at)}.` : "Not all of it is kept here yet: it is fetched while a page of the book is open.";
  return el(
    "details",
    { class: "card save", id: "without-service" },
    el("summary", { text: "Without barmap running" }),
    el("p", { class: "soft small", text: canKeep() ? KEEPS : KEEPS_NOT }),
    canKeep() ? el("p", { class: "small", text: now }) : null,
  );
}
