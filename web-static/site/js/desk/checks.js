import { bookPath, call } from "../core/api.js";

/** @typedef {import("../core/types.js").Consequence} Consequence */

/** What corrections would change: asked one after the other, and once for a revision. */
export class Checks {
  #book;
  /** @type {Map<string, Promise<Consequence[]>>} what was asked of this revision */
  #checks = new Map();
  #revision = "";
  /** @type {Promise<unknown>} */
  #asking = Promise.resolve();

  /** @param {string} book */
  constructor(book) {
    this.#book = book;
  }

  /**
   * @param {import("../core/types.js").Correction[]} corrections
   * @param {string} revision of the map they are made in
   * @returns {Promise<Consequence[]>}
   */
  of(corrections, revision) {
    if (this.#revision !== revision) this.#checks.clear();
    this.#revision = revision;
    const key = JSON.stringify(corrections);
    const known = this.#checks.get(key);
    if (known) return known;
    /** @type {Promise<import("../core/api.js").Answered<{checks: Consequence[]}>>} */
    const asked = this.#asking.then(() => call("POST", bookPath(this.#book, "/corrections/check"), { body: { corrections } }));
    this.#asking = asked.catch(() => {});
    const found = asked.then(({ data }) => data.checks);
    this.#checks.set(key, found);
    return found;
  }
}
