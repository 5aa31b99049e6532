import { el, show } from "../core/dom.js";
import { mayOwn } from "../core/may.js";
import { pageCard } from "./thumb.js";

/** @typedef {import("../core/types.js").PageInfo} PageInfo */
/** @typedef {import("../core/types.js").Finding} Finding */

/** The pages as a grid that can be put into another order. */
export class PageGrid {
  #book;
  #bus;
  #list = el("ol", { class: "pages" });
  #dragged = "";
  #drawn = "";
  node = el("section", { "aria-label": "Pages" }, this.#list);

  /**
   * @param {string} book
   * @param {import("../core/bus.js").EventBus<import("../core/types.js").BookEvents>} bus
   */
  constructor(book, bus) {
    this.#book = book;
    this.#bus = bus;
  }

  /**
   * @param {PageInfo[]} pages
   * @param {Finding[]} doubts
   */
  draw(pages, doubts) {
    const now = JSON.stringify([pages, doubts.map((d) => d.page)]);
    if (now === this.#drawn) return;
    this.#drawn = now;
    if (pages.length === 0) {
      show(this.#list);
      return;
    }
    const cards = pages.map((page, place) => {
      const own = doubts.filter((d) => d.page === page.index && d.severity !== "info").length;
      const card = pageCard(this.#book, this.#bus, page, { place, last: place === pages.length - 1, doubts: own });
      this.#draggable(card, page, place, pages);
      return card;
    });
    show(this.#list, cards);
  }

  /**
   * @param {HTMLElement} card
   * @param {PageInfo} page
   * @param {number} place
   * @param {PageInfo[]} pages
   */
  #draggable(card, page, place, pages) {
    if (!mayOwn()) return;
    card.draggable = true;
    card.addEventListener("dragstart", (event) => {
      this.#dragged = page.id;
      card.classList.add("dragged");
      event.dataTransfer?.setData("text/plain", page.id);
    });
    card.addEventListener("dragend", () => {
      this.#dragged = "";
      card.classList.remove("dragged");
    });
    card.addEventListener("dragover", (event) => {
      if (!this.#dragged || this.#dragged === page.id) return;
      event.preventDefault();
      card.classList.add("target");
    });
    card.addEventListener("dragleave", () => card.classList.remove("target"));
    card.addEventListener("drop", (event) => {
      card.classList.remove("target");
      const moved = pages.find((p) => p.id === this.#dragged);
      if (!moved) return;
      event.preventDefault();
      this.#bus.emit("move", { page: moved, to: place });
    });
  }
}
