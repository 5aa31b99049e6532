/** @typedef {import("../core/types.js").Bar} Bar */
/** @typedef {import("../core/types.js").Correction} Correction */

/** What the hand does next: the last correction, to be made again, and the bars that are corrected together. */
export class Hand {
  #model;
  /** @type {Correction|undefined} */
  #latest;
  /** Bars that are corrected along with the chosen one, by id. @type {Set<string>} */
  marked = new Set();

  /** Whether each bar that is tapped is one more, where there is no key to hold. */
  more = false;

  /** @param {import("./model.js").DeskModel} model */
  constructor(model) {
    this.#model = model;
  }

  /**
   * Makes a correction; where several bars are marked, of each of them.
   *
   * @param {Correction} correction
   * @param {string|undefined} selected id of the chosen bar
   */
  async correct(correction, selected) {
    const here = "bar" in correction ? correction.bar : undefined;
    if (here !== undefined && correction.kind !== "dismiss-doubt") this.#latest = correction;
    const others = here !== undefined && here === selected ? [...this.marked].filter((id) => id !== here) : [];
    this.let();
    let made = await this.#model.correct(correction);
    for (const bar of others) made = (await this.#model.correct(/** @type {Correction} */ ({ ...correction, bar }))) && made;
    return made;
  }

  /**
   * The last correction, for another bar.
   *
   * @param {Bar|undefined} bar
   * @returns {Correction|undefined}
   */
  again(bar) {
    return bar && this.#latest && /** @type {Correction} */ ({ ...this.#latest, bar: bar.id });
  }

  /** Lets go of all but the chosen bar. */
  let() {
    this.marked.clear();
    this.more = false;
  }

  /**
   * Marks all bars of a page from the chosen one up to another.
   *
   * @param {Bar[]} bars of the page, as they are read
   * @param {Bar} bar
   * @param {string|undefined} selected id of the chosen bar
   */
  through(bars, bar, selected) {
    const [from, to] = [bars.findIndex((b) => b.id === selected), bars.indexOf(bar)].sort((a, b) => a - b);
    for (const b of from < 0 ? [bar] : bars.slice(from, to + 1)) this.marked.add(b.id);
  }

  /**
   * Marks a bar, or not any more; the one chosen before is marked along with the first.
   *
   * @param {Bar} bar
   * @param {string|undefined} selected id of the chosen bar
   */
  also(bar, selected) {
    if (selected && !this.marked.has(selected) && selected !== bar.id) this.marked.add(selected);
    if (!this.marked.delete(bar.id)) this.marked.add(bar.id);
  }
}
