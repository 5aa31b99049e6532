import { imagePath } from "../core/api.js";
import { confirm } from "../core/dialog.js";
import { button, el } from "../core/dom.js";
import { icon, signButton } from "../core/icons.js";
import { CORRECTORS, mayCorrect, OWNERS } from "../core/may.js";
import { count, toCheck } from "../core/words.js";

/** @typedef {import("../core/types.js").PageInfo} PageInfo */

/**
 * @param {PageInfo} page
 * @param {number} doubts
 */
function stateChip(page, doubts) {
  switch (page.state) {
    case "verified":
      return el("span", { class: "chip chip-good" }, icon("tick"), "Checked");
    case "failed":
      return el("span", { class: "chip chip-bad" }, icon("warn"), "Not read");
    case "read":
      if (page.score && !doubts) return el("span", { class: "chip", text: "From a score" });
      if (page.expectedWrong === undefined) return el("span", { class: "chip chip-bad" }, icon("warn"), "No music found");
      return doubts
        ? el("span", { class: "chip chip-doubt" }, icon("doubt"), count(doubts, "doubt"))
        : el("span", { class: "chip", text: "Read" });
    case "reading":
      return el("span", { class: "chip", text: "Reading …" });
    default:
      return el("span", { class: "chip", text: "Waiting" });
  }
}

/**
 * @param {import("../core/bus.js").EventBus<import("../core/types.js").BookEvents>} bus
 * @param {PageInfo} page
 */
function retake(bus, page) {
  const input = el("input", { type: "file", accept: "image/*", capture: "environment", class: "visually-hidden", tabindex: -1, "aria-label": `A new picture of page ${page.index}` });
  input.addEventListener("change", () => {
    const file = input.files?.[0];
    if (file) bus.emit("retake", { page, file });
  });
  return [button("Take it again", () => input.click(), {}, icon("camera")), input];
}

/**
 * One page with its state and what can be done with it.
 *
 * @param {string} book
 * @param {import("../core/bus.js").EventBus<import("../core/types.js").BookEvents>} bus
 * @param {PageInfo} page
 * @param {{place: number, last: boolean, doubts: number}} here
 * @returns {HTMLLIElement}
 */
export function pageCard(book, bus, page, { place, last, doubts }) {
  const href = `/desk.html?b=${encodeURIComponent(book)}&p=${page.index}`;
  const picture = page.score ? el("span", { class: "thumb-none", text: "No picture: this page came from a score file" }) : el("img", { src: imagePath(book, page.id, 320), alt: "", loading: "lazy", draggable: "false" });
  picture.addEventListener("error", () => picture.remove());
  const name = `page ${page.index}`;
  const remove = async () => {
    const sure = await confirm(`Take out ${name}?`, page.score ? "Its bars and their corrections are removed from this book." : "Its picture and its corrections are removed from this book.", "Take it out");
    if (sure) bus.emit("delete", page);
  };
  const trouble = page.finding ?? "";
  const wrong = page.state === "read" ? toCheck(page.expectedWrong) : "";
  return el(
    "li",
    { class: "card thumb", "data-page": page.index, "data-state": page.state },
    el("div", { class: "thumb-head" }, el("b", { text: String(page.index) }), stateChip(page, doubts)),
    page.state === "read" || page.state === "verified"
      ? el("a", { class: "thumb-link", href, "aria-label": `${mayCorrect() ? "Correct" : "Look at"} ${name}`, draggable: "false" }, picture)
      : el("div", { class: "thumb-link" }, picture),
    wrong ? el("p", { class: "to-check", text: wrong.charAt(0).toUpperCase() + wrong.slice(1) }) : null,
    el("p", { class: "source", text: page.source, title: page.source }),
    trouble ? el("p", { class: page.state === "failed" || page.expectedWrong === undefined ? "finding" : "remark", text: trouble }) : null,
    trouble ? el("div", { class: "retake", ...CORRECTORS }, retake(bus, page)) : null,
    // what could not be opened has no picture to read
    page.state === "failed" && page.width > 0 ? button("Try to read it again", () => bus.emit("again", page), CORRECTORS) : null,
    el(
      "div",
      { class: "tools", ...OWNERS },
      signButton("left", "Earlier", () => bus.emit("move", { page, to: place - 1 }), { "aria-label": `Move ${name} earlier`, disabled: place === 0 }),
      signButton("bin", "Take out", remove, { "aria-label": `Take out ${name}` }),
      signButton("right", "Later", () => bus.emit("move", { page, to: place + 1 }), { "aria-label": `Move ${name} later`, disabled: last }),
    ),
  );
}
