import { bookPath, call, get, read } from "../core/api.js";
import { ask } from "../core/dialog.js";
import { button, el, show } from "../core/dom.js";
import { icon } from "../core/icons.js";
import { canKeep } from "../core/keep.js";
import { complain, toast } from "../core/toast.js";
import { count, plain } from "../core/words.js";

/** @typedef {import("../core/types.js").PencilMark} PencilMark */
/** @typedef {import("../core/types.js").Kept} Kept */

const AGREEMENT = "A rented book belongs to its publisher. Whether you may keep pictures of it, notes or copies, and for how long, is decided by the hire agreement and by the people in charge: if in doubt, ask the hirer or the show's librarian.";

/** What is kept of a rented book, where and for how long; and what to do when it goes back. */
export class Care {
  #book;
  #body = el("div");
  #returned;
  node = el("details", { class: "card save", id: "care" }, el("summary", { text: "What is kept of this book, and giving it back" }), this.#body);
  /** The pages as they were shown last. @type {import("../core/types.js").PageInfo[]} */
  #pages = [];
  #elsewhere = false;

  /**
   * @param {string} book
   * @param {() => void} returned called when the pictures are gone
   */
  constructor(book, returned) {
    this.#book = book;
    this.#returned = returned;
    this.node.hidden = true;
    this.node.addEventListener("toggle", () => {
      if (this.node.open) void this.#draw().catch(complain);
    });
  }

  /**
   * @param {import("../core/types.js").PageInfo[]} pages
   * @param {import("../core/types.js").Book["keeps"]} keeps
   */
  async load(pages, keeps) {
    this.#pages = pages;
    this.#elsewhere = keeps?.pictures === "elsewhere";
    // what is told at the machine itself only is not shown elsewhere
    if (this.node.hidden) await get("/api/about");
    this.node.hidden = false;
    if (this.node.open) await this.#draw();
  }

  /** Looks through the folder, so only when a person wants to know. */
  async #draw() {
    /** @type {[Kept, {days?: number}]} */
    const [kept, bin] = await Promise.all([get("/api/kept"), get("/api/bin")]);
    show(
      this.#body,
      el("p", { class: "soft small", text: AGREEMENT }),
      places(kept, bin.days, this.#elsewhere),
      el("div", { class: "row" }, button("The book goes back …", () => void this.#giveBack().catch(complain), { id: "give-back" }, icon("bin"))),
    );
  }

  /** The marks to erase first, then the pictures. */
  async #giveBack() {
    const { written } = await read(this.#book, "/marks");
    const yes = await ask("The book goes back", [...erasing(this.#book, written), ...removing(this.#pages.length)], { yes: "Remove the pictures", danger: true });
    if (!yes) return;
    for (const mark of written) await call("POST", bookPath(this.#book, "/marks"), { body: { mark, written: false } });
    const { revision } = await call("GET", bookPath(this.#book));
    /** @type {import("../core/api.js").Answered<{removed: number}>} */
    const { data } = await call("DELETE", bookPath(this.#book, "/pictures"), { match: revision });
    toast(`${count(data.removed, "picture")} removed. The map, what you corrected and the show's changes are still here.`, { kind: "good" });
    this.#returned();
  }
}

/**
 * @param {Kept} kept
 * @param {number|undefined} days in the bin
 * @param {boolean} elsewhere whether pictures are kept in a store of their own
 */
function places(kept, days, elsewhere) {
  const rows = [
    ["Pictures of the pages", `${elsewhere ? "in the picture store barmap was started with; copies " : ""}in ${kept.folder}${kept.closed ? ", closed to other accounts of this machine" : ""} (all books: ${count(kept.pictures.files, "picture")}, ${size(kept.pictures.bytes + kept.smaller.bytes)} with the smaller ones for the screen)`, "until you take the page out, give the book back here, or remove it from the bin for good"],
    ["What was read and corrected, changes, notes", `in the same folder (${size(kept.database.bytes)})`, "until you remove the book from the bin for good"],
    ["A book in the bin", "stays where it was, with everything", days ? `for ${count(days, "day")}, as you set it on the shelf` : "until you remove it for good on the shelf"],
    canKeep() ? ["This browser", "pages and pictures you opened, so that they work while barmap doesn't run", "until you give the book back here or put it in the bin"] : undefined,
    ["Files you saved or printed", "where you put them: barmap does not know them. Sheets with pieces of the page, a packed book or a backup with pictures are copies too. A backup also holds what was corrected and noted, and who did it; no keys, no links, and of web hooks only which machine they led to", "until you delete them yourself"],
    kept.setAside.files ? ["Set aside", `${count(kept.setAside.files, "file")} in ${kept.folder}, which no book names any more (${size(kept.setAside.bytes)})`, "until you delete them on the shelf"] : undefined,
  ].filter((row) => row !== undefined);
  return el("dl", { class: "kept" }, rows.map(([what, where, long]) => el("div", {}, el("dt", { text: what }), el("dd", { text: where }), el("dd", { class: "soft", text: `Kept ${long}.` }))));
}

/** @param {number} bytes */
function size(bytes) {
  return bytes < 1e6 ? `${Math.max(1, Math.round(bytes / 1e3))} kB` : `${(bytes / 1e6).toFixed(bytes < 1e7 ? 1 : 0)} MB`;
}

/**
 * @param {string} book
 * @param {PencilMark[]} written
 */
function erasing(book, written) {
  const list = el("a", { href: bookPath(book, "/sheets/erase.pdf"), target: "_blank", text: "Print this list" });
  const look = `/turns.html?b=${encodeURIComponent(book)}#pencil`;
  return [
    el("h3", { text: "1. Erase what you wrote into it" }),
    written.length
      ? el("p", { class: "small" }, "You ticked these as written. Tick each one when it is erased. ", list)
      : el("p", { class: "small" }, "Nothing is ticked as written. Leaf through the book all the same; what barmap told you to write is in the ", el("a", { href: look, target: "_blank", text: "list of marks" }), "."),
    el("ul", { class: "erasing" }, written.map((mark) => el("li", {}, tick(el("b", { text: mark.sign ?? plain(mark.mark) }), ` ${[`page ${mark.page}`, mark.system ? `line ${mark.system}` : "", mark.where ?? ""].filter(Boolean).join(", ")}`)))),
    tick("I have leafed through the book: nothing of mine stands in it"),
  ];
}

/** @param {(Node|string)[]} said something that has to be done before anything is removed */
function tick(...said) {
  return el("label", { class: "tick-line small" }, el("input", { type: "checkbox", required: true }), el("span", {}, said));
}

/** @param {number} pages */
function removing(pages) {
  return [
    el("h3", { text: "2. Remove the pictures" }),
    el("p", { class: "small", text: `The pictures of ${count(pages, "page")} are deleted now, where barmap keeps them and in this browser. This can't be taken back. The map, your corrections, the changes and the plan stay, without a picture of any page; take the book to the bin afterwards if they have to go too.` }),
    el("p", { class: "small", text: "Files you saved with pictures, sheets with pieces of pages and backups are not touched: delete those yourself." }),
    tick("The hire agreement lets me keep the rest, or I remove it too"),
  ];
}
