import { count } from "../core/words.js";
import { centre } from "./geometry.js";
import { askSplit } from "./split.js";

/** @typedef {import("../core/types.js").Bar} Bar */
/** @typedef {import("../core/types.js").Correction} Correction */

/**
 * What the desk does for it.
 *
 * @typedef {object} Bench
 * @property {() => Bar|undefined} bar the chosen one
 * @property {(c: Correction) => Promise<boolean>} correct
 * @property {(bar: Bar|undefined) => void} choose turns to its page where it must
 * @property {() => void} drawn draws the page again
 * @property {() => void} leave lays the tools down
 * @property {(text: string) => void} say to who can't see it
 */

/** What is changed by place, not by a field: barlines, marks that move, lines of music that were missed. */
export class Shape {
  #model;
  #bench;
  /** What is being read in a frame that was drawn; empty when nothing is. */
  reading = "";

  /**
   * @param {import("./model.js").DeskModel} model
   * @param {Bench} bench
   */
  constructor(model, bench) {
    this.#model = model;
    this.#bench = bench;
  }

  /**
   * A barline into a bar.
   *
   * @param {Bar} bar
   * @param {[number, number]} p
   */
  async cut(bar, p) {
    const before = new Set(this.#model.map.bars.map((b) => b.id));
    this.#bench.leave();
    const y = centre(bar.outline)[1];
    const split = bar.content === "multi-rest" && bar.count > 1 ? await askSplit(bar, p[0]) : {};
    if (!split) return;
    const made = await this.#bench.correct({ kind: "add-barline", page: bar.page, system: bar.system, x: p[0], y, ...split });
    if (!made) return;
    const fresh = this.#model.map.bars.filter((b) => b.system === bar.system && b.page === bar.page && !before.has(b.id));
    this.#bench.choose(this.#model.bar(bar.id) ?? fresh[0]);
  }

  /** @param {number} by page pixels that the barline at the end of the chosen bar moves */
  nudge(by) {
    const bar = this.#bench.bar();
    if (!bar) return;
    const [, b, c] = bar.outline;
    void this.#bench.correct({ kind: "move-barline", bar: bar.id, side: "end", x: (b[0] + c[0]) / 2 + by, y: (b[1] + c[1]) / 2 });
  }

  /** @param {-1|1} step bars of the book, over lines and pages, that the mark of the chosen bar moves */
  async moveMark(step) {
    const bar = this.#bench.bar();
    const pages = this.#model.map.pages.map((p) => p.index);
    if (bar) await this.#model.need(pages[pages.indexOf(bar.page) + step] ?? bar.page);
    const all = this.#model.map.bars;
    const next = bar ? all[all.findIndex((b) => b.id === bar.id) + step] : undefined;
    if (bar?.rehearsal && next) await this.putMark(bar, next);
  }

  /**
   * @param {Bar} bar where a mark was read
   * @param {Bar} to where it goes; chosen afterwards
   */
  async putMark(bar, to) {
    if (await this.#bench.correct({ kind: "move-rehearsal", bar: bar.id, to: to.id })) this.#bench.choose(this.#model.bar(to.id));
  }

  /**
   * A line of music that was missed.
   *
   * @param {number} page its index
   * @param {import("../core/types.js").Outline} outline as it was drawn
   */
  async line(page, outline) {
    const before = new Set(this.#model.barsOn(page).map((b) => b.id));
    this.reads("Reading the line …");
    const made = await this.#model.line(page, outline);
    this.reads("");
    if (!made) return;
    if (this.#model.waits) return this.#bench.say("The line is read when barmap answers.");
    const fresh = this.#model.barsOn(page).filter((b) => !before.has(b.id));
    this.#bench.choose(fresh[0]);
    this.#bench.say(`${count(fresh.length, "entry", "entries")} read in the line.`);
  }

  /** @param {string} text what is being read, or nothing */
  reads(text) {
    this.reading = text;
    this.#bench.drawn();
  }
}
