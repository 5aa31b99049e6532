import { imagePath } from "../core/api.js";
import { el, show } from "../core/dom.js";
import { barName } from "../core/words.js";

/** @typedef {import("../shared/steps.js").BarStep} BarStep */
/** @typedef {import("../core/types.js").Bar} Bar */

/**
 * Shows the line that is played, cut out of its page, and under it a ruler with a cell for each of its bars: the cell
 * that is now is filled, those that are over are hatched. Nothing lies over the music, and the line stays until the
 * next one begins.
 */
export class Follower {
  #book;
  #bars;
  #pages;
  /** @type {Bar[]} */
  #line = [];
  /** @type {Map<string, HTMLElement>} */
  #cells = new Map();
  #music = el("div", { class: "line-music" });
  #ruler = el("ol", { class: "line-ruler", "aria-hidden": "true" });
  #window = el("div", { class: "line-window", tabindex: 0, role: "group", "aria-label": "The line" }, el("div", { class: "line-whole" }, this.#music, this.#ruler));
  #caption = el("figcaption", { "aria-live": "off" });
  node = el("figure", { class: "line", hidden: true }, this.#window, this.#caption);

  /**
   * @param {string} book
   * @param {Map<string, Bar>} bars
   * @param {Map<number, import("../core/types.js").PageInfo>} pages by index
   */
  constructor(book, bars, pages) {
    this.#book = book;
    this.#bars = bars;
    this.#pages = pages;
  }

  /** @param {BarStep|undefined} step nothing changes when there is none */
  show(step) {
    const bar = step && this.#bars.get(step.bar);
    const page = step && this.#pages.get(step.page);
    if (!step || !bar || !page?.width || !page.height) return;
    this.node.hidden = false;
    this.#caption.textContent = [`bar ${step.name}`, step.left > 1 ? `rest, ${step.left} to go` : "", `page ${step.page}`].filter(Boolean).join(" · ");
    this.node.dataset.bar = step.name;
    if (!this.#line.includes(bar)) this.#draw(bar, page);
    const at = this.#line.indexOf(bar);
    for (const [i, other] of this.#line.entries()) {
      const cell = this.#cells.get(other.id);
      cell?.classList.toggle("line-now", i === at);
      cell?.classList.toggle("line-over", i < at);
    }
    const cell = this.#cells.get(bar.id);
    if (cell) this.#window.scrollLeft = cell.offsetLeft - this.#window.clientWidth / 3;
  }

  /**
   * @param {Bar} bar
   * @param {import("../core/types.js").PageInfo} page
   */
  #draw(bar, page) {
    this.#line = [...this.#bars.values()].filter((b) => b.page === bar.page && b.system === bar.system);
    const points = this.#line.flatMap((b) => b.outline);
    const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
    const [left, right] = [Math.min(...xs), Math.max(...xs)];
    const staff = Math.max(...ys) - Math.min(...ys);
    // marks and words stand above a staff, dynamics below it
    const [top, high] = [Math.max(0, Math.min(...ys) - 1.4 * staff), 3.2 * staff];
    const wide = Math.max(1, right - left);
    const percent = (/** @type {number} */ part, /** @type {number} */ whole) => `${(100 * part) / whole}%`;
    this.#music.hidden = page.score === true;
    const picture = page.score ? null : el("img", { src: imagePath(this.#book, page.id, 1400), alt: `Page ${bar.page}, line ${bar.system}` });
    if (picture) Object.assign(picture.style, { width: percent(page.width, wide), left: percent(-left, wide), top: percent(-top, high) });
    this.#music.style.aspectRatio = `${wide} / ${high}`;
    show(this.#music, picture);
    this.#cells = new Map(this.#line.map((b) => [b.id, el("li", { class: "line-cell", text: barName(b) })]));
    for (const b of this.#line) {
      const [from, to] = [Math.min(...b.outline.map(([x]) => x)), Math.max(...b.outline.map(([x]) => x))];
      const cell = this.#cells.get(b.id);
      if (cell) Object.assign(cell.style, { left: percent(from - left, wide), width: percent(to - from, wide) });
    }
    show(this.#ruler, [...this.#cells.values()]);
  }
}
