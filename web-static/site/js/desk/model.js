import { bookPath, call, isStale, read, write } from "../core/api.js";
import { who } from "../core/store.js";
import { sameSteps, stillMeans } from "./merge.js";

/** @typedef {import("../core/types.js").BarMap} BarMap */
/** @typedef {import("../core/types.js").Bar} Bar */
/** @typedef {import("../core/types.js").Finding} Finding */
/** @typedef {import("../core/types.js").Correction} Correction */

/** Steps waiting for the service; more than this means something is stuck. */
const MOST_WAITING = 60;

/**
 * The map as the service has it. Writes go one after the other, each against the revision the one
 * before it brought, so that quick fingers never meet their own shadow.
 */
export class DeskModel {
  #book;
  #bus;
  #revision = "";
  /** @type {BarMap|undefined} */
  #map;
  /** @type {Finding[]} */
  #doubts = [];
  /** @type {import("../core/types.js").History} */
  #history = { entries: [], undo: 0, redo: 0 };
  /** @type {Map<number, string>} page index to state */
  #states = new Map();
  /** @type {Map<number, string>} page index to id */
  #ids = new Map();
  /** @type {Promise<unknown>} */
  #last = Promise.resolve();
  #waiting = 0;
  title = "";

  /**
   * @param {string} book
   * @param {import("../core/bus.js").EventBus<import("../core/types.js").DeskEvents>} bus gets `map`, `doubts`, `history`, `stale`,
   *     `failed`, `busy`
   */
  constructor(book, bus) {
    this.#book = book;
    this.#bus = bus;
    bus.on("live:map", (event) => {
      const theirs = String(event.revision);
      if (this.#waiting === 0 && theirs !== this.#revision) void this.load().catch(() => {});
    });
  }

  get map() {
    if (!this.#map) throw new Error("the map is not loaded");
    return this.#map;
  }

  get loaded() {
    return this.#map !== undefined;
  }

  get doubts() {
    return this.#doubts;
  }

  get history() {
    return this.#history;
  }

  /** How many pages the book has, the unread ones counted. */
  get pageCount() {
    return this.#states.size;
  }

  /** @param {number} index */
  pageState(index) {
    return this.#states.get(index) ?? "read";
  }

  /** @param {number} index */
  pageId(index) {
    return this.#ids.get(index) ?? this.map.pages.find((p) => p.index === index)?.id ?? "";
  }

  /** @param {number} index */
  barsOn(index) {
    return this.map.bars.filter((b) => b.page === index);
  }

  /** @param {string|undefined} id */
  bar(id) {
    return this.map.bars.find((b) => b.id === id);
  }

  /** Fetches everything afresh. */
  async load() {
    /** @type {Promise<import("../core/api.js").Answered<BarMap>>} */
    const map = call("GET", bookPath(this.#book, "/map"));
    const [book, answer] = await Promise.all([read(this.#book, ""), map]);
    this.title = `${book.title}, ${book.part}`;
    this.#states = new Map(book.pages.map((p) => [p.index, p.state]));
    this.#ids = new Map(book.pages.map((p) => [p.index, p.id]));
    this.#take(answer.data, answer.revision);
    await this.#beside();
  }

  /**
   * @param {BarMap} map
   * @param {string} revision
   */
  #take(map, revision) {
    this.#map = map;
    this.#revision = revision;
    this.#bus.emit("map", map);
  }

  /** Doubts and history follow the map. */
  async #beside() {
    const [found, history, book] = await Promise.all([
      read(this.#book, "/doubts"),
      read(this.#book, "/history"),
      read(this.#book, ""),
    ]);
    this.#doubts = found.doubts.filter((d) => d.severity !== "info");
    this.#history = history;
    this.#states = new Map(book.pages.map((p) => [p.index, p.state]));
    this.#bus.emit("doubts", this.#doubts);
    this.#bus.emit("history", this.#history);
  }

  /**
   * Makes a correction.
   *
   * @param {Correction} correction
   * @returns {Promise<boolean>} whether it was made
   */
  correct(correction) {
    const name = who();
    return this.#write("/corrections", name ? { ...correction, who: name } : correction);
  }

  /** @type {Map<string, Promise<import("../core/types.js").Consequence[]>>} what was asked of this revision */
  #checks = new Map();
  #checked = "";

  /**
   * What corrections would change. Asked one after the other, and once for a revision.
   *
   * @param {Correction[]} corrections
   * @returns {Promise<import("../core/types.js").Consequence[]>}
   */
  check(corrections) {
    if (this.#checked !== this.#revision) this.#checks.clear();
    this.#checked = this.#revision;
    const key = JSON.stringify(corrections);
    const known = this.#checks.get(key);
    if (known) return known;
    /** @type {Promise<import("../core/api.js").Answered<{checks: import("../core/types.js").Consequence[]}>>} */
    const asked = this.#asking.then(() => call("POST", bookPath(this.#book, "/corrections/check"), { body: { corrections } }));
    this.#asking = asked.catch(() => {});
    const found = asked.then(({ data }) => data.checks);
    this.#checks.set(key, found);
    return found;
  }

  /** @type {Promise<unknown>} */
  #asking = Promise.resolve();

  undo() {
    return this.#write("/undo");
  }

  redo() {
    return this.#write("/redo");
  }

  /**
   * @param {string} path
   * @param {object} [body]
   * @returns {Promise<boolean>}
   */
  #write(path, body) {
    if (this.#waiting >= MOST_WAITING) return Promise.resolve(false);
    this.#waiting++;
    this.#bus.emit("busy", true);
    const step = this.#last.then(() => this.#send(path, body));
    this.#last = step.catch(() => {});
    return step.finally(() => {
      this.#waiting--;
      if (this.#waiting === 0) this.#bus.emit("busy", false);
    });
  }

  /**
   * The revision there is now, when a step still means in it what it meant in the map that was seen:
   * the reader settles the book anew after every page, and that is nobody's change.
   *
   * @param {object|undefined} body the correction; none for a step back or again
   * @returns {Promise<string|undefined>}
   */
  async #newer(body) {
    /** @type {Promise<import("../core/api.js").Answered<BarMap>>} */
    const map = call("GET", bookPath(this.#book, "/map"));
    const [{ data, revision }, history] = await Promise.all([map, read(this.#book, "/history")]);
    const fits = body ? stillMeans(body, this.map, data) : sameSteps(this.#history, history);
    return fits ? revision : undefined;
  }

  /**
   * @param {string} path
   * @param {object|undefined} body
   */
  async #send(path, body) {
    try {
      const post = async (/** @type {string} */ match) => {
        /** @type {import("../core/api.js").Answered<import("../core/types.js").CorrectionAnswer>} */
        const { data } = await call("POST", bookPath(this.#book, path), { body: body ?? {}, match });
        return data;
      };
      const data = await write(this.#revision, post, () => this.#newer(body));
      this.#doubts = data.doubts.filter((d) => d.severity !== "info");
      this.#take(data.map, String(data.revision));
      this.#bus.emit("made", data.entry);
      await this.#beside();
      return true;
    } catch (error) {
      if (isStale(error)) {
        await this.load();
        this.#bus.emit("stale");
      } else {
        this.#bus.emit("failed", error);
      }
      return false;
    }
  }
}
