/** @typedef {import("../core/types.js").BarMap} BarMap */
/** @typedef {import("../core/types.js").Bar} Bar */

/** The map of a book as far as it is here: lines and bars of some pages, all else of the whole book. */
export class HeldPages {
  /** @type {BarMap|undefined} */
  map;
  /** @type {Map<number, string>} page index to state */
  #states = new Map();
  /** @type {Set<number>} pages that came from a score file: bars without a picture */
  #drawn = new Set();
  /** @type {Map<number, string>} page index to id */
  #ids = new Map();
  /** @type {Map<number, Bar[]>} by page, of those that are here */
  #bars = new Map();

  /** How many pages the book has, the unread ones counted. */
  get count() {
    return this.#states.size;
  }

  /** Indices of the pages whose bars are here. */
  get here() {
    return [...this.#bars.keys()];
  }

  /** @param {number} index */
  state(index) {
    return this.#states.get(index);
  }

  /** @param {number} index */
  isDrawn(index) {
    return this.#drawn.has(index);
  }

  /** @param {number} index */
  id(index) {
    return this.#ids.get(index);
  }

  /** @param {number} index @returns {Bar[]} none while the page is not here */
  bars(index) {
    return this.#bars.get(index) ?? [];
  }

  /** @param {number} index */
  has(index) {
    return this.#bars.has(index);
  }

  /** Forgets the bars of all pages. */
  forget() {
    this.#bars.clear();
  }

  /** @param {import("../core/types.js").BookAnswers[""]} book takes over which pages there are */
  list(book) {
    this.#states = new Map(book.pages.map((p) => [p.index, p.state]));
    this.#drawn = new Set(book.pages.filter((p) => p.score).map((p) => p.index));
    this.#ids = new Map(book.pages.map((p) => [p.index, p.id]));
  }

  /** @param {BarMap} map lays what came over what is here */
  lay(map) {
    const came = new Set(map.here ?? map.pages.map((p) => p.index));
    const known = new Map((this.map?.pages ?? []).map((p) => [p.index, p]));
    const pages = map.pages.map((p) => (came.has(p.index) ? p : { ...p, systems: known.get(p.index)?.systems ?? [], byHand: known.get(p.index)?.byHand }));
    for (const index of came) this.#bars.set(index, []);
    for (const bar of map.bars) this.#bars.get(bar.page)?.push(bar);
    for (const index of this.here) if (!pages.some((p) => p.index === index)) this.#bars.delete(index);
    const bars = this.here.sort((a, b) => a - b).flatMap((index) => this.bars(index));
    this.map = { ...map, pages, bars };
  }
}
