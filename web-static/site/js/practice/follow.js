import { imagePath } from "../core/api.js";
import { el, show } from "../core/dom.js";

/** @typedef {import("../shared/steps.js").BarStep} BarStep */

/** Shows the page with the bar that sounds; the page moves along, line by line. */
export class Follower {
  #book;
  #bars;
  #pages;
  #page = 0;
  #bar = "";
  #mark = el("div", { class: "follow-bar", "aria-hidden": "true" });
  #sheet = el("div", { class: "follow-sheet" });
  #window = el("div", { class: "follow-window", tabindex: 0, role: "group", "aria-label": "The page" }, this.#sheet);
  #caption = el("figcaption", { "aria-live": "off" });
  node = el("figure", { class: "follow", hidden: true }, this.#window, this.#caption);

  /**
   * @param {string} book
   * @param {Map<string, import("../core/types.js").Bar>} bars
   * @param {Map<number, import("../core/types.js").PageInfo>} pages by index
   */
  constructor(book, bars, pages) {
    this.#book = book;
    this.#bars = bars;
    this.#pages = pages;
  }

  /** @param {BarStep|undefined} step nothing moves when there is none */
  show(step) {
    const bar = step && this.#bars.get(step.bar);
    const page = step && this.#pages.get(step.page);
    if (!step || !bar || !page?.width || !page.height) return;
    this.node.hidden = false;
    this.#caption.textContent = [`bar ${step.name}`, step.left > 1 ? `rest, ${step.left} to go` : "", `page ${step.page}`].filter(Boolean).join(" · ");
    this.node.dataset.bar = step.name;
    if (step.page !== this.#page) {
      this.#page = step.page;
      show(this.#sheet, el("img", { src: imagePath(this.#book, page.id, 1400), alt: `Page ${step.page}`, width: page.width, height: page.height }), this.#mark);
    }
    if (bar.id === this.#bar) return;
    this.#bar = bar.id;
    const xs = bar.outline.map(([x]) => x);
    const ys = bar.outline.map(([, y]) => y);
    const high = Math.max(...ys) - Math.min(...ys);
    const percent = (/** @type {number} */ part, /** @type {number} */ whole) => `${(100 * part) / whole}%`;
    Object.assign(this.#mark.style, {
      left: percent(Math.min(...xs), page.width),
      width: percent(Math.max(...xs) - Math.min(...xs), page.width),
      top: percent(Math.min(...ys) - high / 2, page.height),
      height: percent(2 * high, page.height),
    });
    const top = this.#mark.offsetTop - this.#window.clientHeight / 3;
    this.#window.scrollTo({ top: Math.max(0, top), behavior: matchMedia("(prefers-reduced-motion: reduce)").matches ? "auto" : "smooth" });
  }
}
