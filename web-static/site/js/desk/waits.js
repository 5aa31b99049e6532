import { waitingOf, whenDifferent } from "../core/outbox.js";
import { historyNow, ofMap } from "../core/pending.js";
import { barsCorrected, doubtsLeft, framesOn, pageStates } from "../core/pending-map.js";

/** @typedef {import("../core/types.js").Bar} Bar */

/** The corrections of a book that wait to be sent, laid over what the service has of it. */
export class Waits {
  #path;
  /** Oldest first. @type {import("../core/outbox.js").Waiting[]} */
  #edits = [];
  /** The bars of a page with them. @type {Map<number, Bar[]>} */
  #bars = new Map();

  /**
   * @param {string} path the book's address
   * @param {(sent: boolean) => void} different told when others wait now, and whether all were sent or dropped
   */
  constructor(path, different) {
    this.#path = path;
    whenDifferent(() => void this.#again(different));
  }

  /** @param {(sent: boolean) => void} different */
  async #again(different) {
    const before = this.#edits.map((e) => e.key).join();
    await this.look();
    if (before !== this.#edits.map((e) => e.key).join()) different(this.#edits.length === 0);
  }

  /** Looks what waits now. */
  async look() {
    this.#edits = (await waitingOf(this.#path)).filter(ofMap);
    this.forget();
  }

  /** The service has other bars now. */
  forget() {
    this.#bars.clear();
  }

  get count() {
    return this.#edits.length;
  }

  /**
   * @param {number} index of a page
   * @param {Bar[]} bars of it
   */
  bars(index, bars) {
    if (this.#edits.length === 0) return bars;
    const known = this.#bars.get(index);
    if (known) return known;
    const now = barsCorrected(bars, this.#edits);
    this.#bars.set(index, now);
    return now;
  }

  /** @param {import("../core/types.js").Finding[]} doubts */
  doubts(doubts) {
    return this.#edits.length ? doubtsLeft(doubts, this.#edits) : doubts;
  }

  /** @param {import("../core/types.js").History} history */
  history(history) {
    return historyNow(history, this.#edits, `${this.#path}/redo`);
  }

  /** @param {number} index @returns {string|undefined} of a page that was checked, or is not any more */
  state(index) {
    return this.#edits.length ? pageStates(this.#edits).get(index) : undefined;
  }

  /** @param {number} index @returns {import("../core/types.js").Outline[]} lines drawn on a page that wait to be read */
  framesOn(index) {
    return framesOn(this.#edits, index);
  }
}
