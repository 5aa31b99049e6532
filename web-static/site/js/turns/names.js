import { barName, numberName, numberNo } from "../core/words.js";

/** @typedef {import("../core/types.js").BarMap} BarMap */
/** @typedef {import("../shared/theirs.js").TheirBars} TheirBars */

/** Finds what a bar of the plan is called, and where it stands. */
export class BarNames {
  /** @type {Map<string, import("../core/types.js").Bar>} */
  #bars;
  /** @type {Map<string, string>} */
  #numbers = new Map();
  /** @type {Map<number, string>} */
  #pages;
  /** @type {Map<string, string|undefined>} */
  #titles;
  /** @type {Map<string, number>} */
  #places;
  /** @type {Map<string, string|undefined>} */
  #firsts;

  /**
   * @param {BarMap} map
   * @param {Map<number, string>} pages page index to page id
   * @param {TheirBars} theirs what bars are called in the part beside this one
   */
  constructor(map, pages, theirs) {
    this.theirs = theirs;
    this.#bars = new Map(map.bars.map((b) => [b.id, b]));
    this.#pages = pages;
    this.#titles = new Map(map.numbers.map((n) => [n.label, n.title]));
    this.#firsts = new Map(map.numbers.map((n) => [n.label, n.firstBar]));
    this.#places = new Map(map.bars.map((b, i) => [b.id, i]));
    const starts = new Map(map.numbers.flatMap((n) => (n.firstBar ? [[n.firstBar, n.label]] : [])));
    // bars before the first number are played too
    let now = map.numbers.length ? `before ${map.numbers.find((n) => n.firstBar)?.label ?? map.numbers[0].label}` : "";
    for (const bar of map.bars) {
      now = /** @type {string|undefined} */ (starts.get(bar.id)) ?? now;
      this.#numbers.set(bar.id, now);
    }
  }

  /** Whether the book has no bars yet. */
  none() {
    return this.#bars.size === 0;
  }

  /** @param {string} label a number with its title */
  number(label) {
    return numberName({ label, title: this.#titles.get(label) });
  }

  /** @param {string} id the bar at which the number begins that a bar lies in */
  begins(id) {
    return this.#firsts.get(this.#numbers.get(id) ?? "");
  }

  /** @param {string} label the bar at which a number begins */
  first(label) {
    return this.#firsts.get(label);
  }

  /** @param {string} id where a bar stands in the book, 0 for the first */
  place(id) {
    return this.#places.get(id) ?? 0;
  }

  /** @param {string|undefined} id */
  bar(id) {
    return id === undefined ? undefined : this.#bars.get(id);
  }

  /**
   * "No. 7, bar 34".
   *
   * @param {string|undefined} id
   */
  long(id) {
    const bar = this.bar(id);
    if (!bar) return id ?? "";
    const number = this.#numbers.get(bar.id);
    return `${number ? `${numberNo(number)}, ` : ""}${this.short(id)}${this.#behind(bar, bar)}`;
  }

  /** @param {string|undefined} id */
  short(id) {
    const bar = this.bar(id);
    if (!bar) return id ?? "";
    if (bar.number === 0 && bar.count === 1 && !bar.label) return "the pickup";
    return `${bar.count > 1 ? "bars" : "bar"} ${barName(bar)}`;
  }

  /**
   * "No. 1, bars 61–88".
   *
   * @param {string|undefined} first
   * @param {string|undefined} last
   */
  span(first, last) {
    const [from, to] = [this.bar(first), this.bar(last)];
    if (!from || !to || from === to) return this.long(first);
    const number = this.#numbers.get(from.id);
    return `${number ? `${numberNo(number)}, ` : ""}bars ${from.label ?? from.number}–${to.label ?? to.number + to.count - 1}${this.#behind(from, to)}`;
  }

  /**
   * @param {import("../core/types.js").Bar} from
   * @param {import("../core/types.js").Bar} to
   */
  #behind(from, to) {
    return this.theirs.behind(this.#numbers.get(from.id) ?? "", from.label ?? String(from.number), to.label ?? String(to.number + to.count - 1));
  }

  /** @param {number} index */
  pageId(index) {
    return this.#pages.get(index) ?? "";
  }
}
