import { bookPath, file } from "../core/api.js";
import { button, el, show } from "../core/dom.js";
import { complain } from "../core/toast.js";

const HEARING = "A click is loud and short: turn the volume down before you press play. Loud sound damages hearing for good.";

/** The form in MusicXML, four ways. */
const XML = /** @type {const} */ ([
  ["musicxml", "whole book"],
  ["musicxml-numbers", "number by number"],
  ["musicxml-playable", "for playing"],
  ["musicxml-played", "as it is played"],
]);

/** @param {string} book what no sign of MusicXML says, asked for when somebody looks */
function leftOut(book) {
  const list = el("ul", { class: "small" });
  const node = el("details", { class: "save-left-out", id: "left-out" }, el("summary", { class: "small", text: "What MusicXML can't say of this book" }), list);
  node.addEventListener("toggle", () => {
    if (!node.open || list.childElementCount > 0) return;
    const fill = async () => {
      const text = await (await file(bookPath(book, "/export/musicxml-left-out"))).text();
      show(list, text.split("\n").filter(Boolean).map((line) => el("li", { text: line })));
    };
    void fill().catch(complain);
  });
  return node;
}

/** @param {string} book the form for a notation program, and what is missing in it */
export function musicXml(book) {
  return el(
    "li",
    { class: "save-wide" },
    el("span", { text: "MusicXML" }),
    el("span", { class: "row" }, XML.map(([form, name]) => el("a", { class: "btn btn-quiet", href: bookPath(book, `/export/${form}`), download: "", text: name }))),
    el("span", { class: "soft small", text: "the form without notes, for a notation program; number by number a D.C. goes back to the beginning of its own number; for playing, the printed book is written so that a program plays it in the order of the plan (vamps once); as it is played, cuts are out and repeats written out" }),
    leftOut(book),
  );
}

/** @param {string} book the click as a file; a number without a tempo needs one */
export function clickFile(book) {
  const number = el("input", { id: "midi-number", size: 5, placeholder: "all", autocomplete: "off" });
  const tempo = el("input", { id: "midi-tempo", type: "number", min: 20, max: 300, step: "any" });
  const said = el("p", { class: "small", id: "midi-said", role: "status" });
  const save = async () => {
    const asked = new URLSearchParams();
    if (number.value.trim()) asked.set("number", number.value.trim());
    if (tempo.value) asked.set("tempo", tempo.value);
    try {
      const made = await file(bookPath(book, `/export/midi?${asked}`));
      const address = URL.createObjectURL(made);
      el("a", { href: address, download: "click.mid" }).click();
      URL.revokeObjectURL(address);
      said.textContent = "Saved.";
    } catch (error) {
      said.textContent = error instanceof Error ? error.message : "";
    }
  };
  const field = (/** @type {string} */ name, /** @type {HTMLElement} */ input) => el("label", { class: "field" }, el("span", { class: "field-label", text: name }), input);
  return el(
    "li",
    { class: "save-wide", id: "midi" },
    el("span", { text: "Click (MIDI)" }),
    el("span", { class: "row" }, field("Number", number), field("Beats a minute where none is known", tempo), button("Save the click", () => void save(), { id: "midi-go" })),
    el("span", { class: "soft small", text: `The order of play with the show's changes: a vamp is in it once, holds and pauses are marked. ${HEARING}` }),
    said,
  );
}
