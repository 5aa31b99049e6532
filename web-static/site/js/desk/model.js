import { bookPath, call, isStale, Kept, readRaw, write } from "../core/api.js";
import { whenShown } from "../core/clock.js";
import { who } from "../core/store.js";
import { Checks } from "./checks.js";
import { HeldPages } from "./held.js";
import { sameSteps, stillMeans } from "./merge.js";
import { sayCorrection, textOf } from "./saying.js";
import { Waits } from "./waits.js";

/** @typedef {import("../core/types.js").BarMap} BarMap */
/** @typedef {import("../core/types.js").Bar} Bar */
/** @typedef {import("../core/types.js").Finding} Finding */
/** @typedef {import("../core/types.js").Correction} Correction */

/** Steps waiting for the service; more than this means something is stuck. */
const MOST_WAITING = 60;

/**
 * The map as the service has it, with what waits to be sent laid over it. Writes go one after the other, each against the revision the one
 * before it brought, so that quick fingers never meet their own shadow.
 */
export class DeskModel {
  #book;
  #bus;
  #revision = "";
  /** @type {Finding[]} */
  #doubts = [];
  /** @type {import("../core/types.js").History} */
  #history = { entries: [], undo: 0, redo: 0 };
  #held = new HeldPages();
  /** @type {Map<number, Promise<void>>} pages on their way */
  #coming = new Map();
  #wanted = 1;
  /** @type {Promise<unknown>} */
  #last = Promise.resolve();
  #waiting = 0;
  #waits;
  #checks;
  title = "";

  /**
   * @param {string} book
   * @param {import("../core/bus.js").EventBus<import("../core/types.js").DeskEvents>} bus gets `map`, `doubts`, `history`, `stale`,
   *     `failed`, `busy`
   */
  constructor(book, bus) {
    this.#book = book;
    this.#bus = bus;
    this.#checks = new Checks(book);
    bus.on("live:map", (event) => void this.#heard(Number(event.revision)).catch(() => {}));
    this.#waits = new Waits(bookPath(book), (sent) => {
      if (!this.loaded) return;
      if (sent) void this.load().catch(() => {});
      else this.#tell();
    });
  }

  /** @param {number} theirs a revision there is now; while steps are on their way it may be of one of them */
  async #heard(theirs) {
    const mine = this.#waiting > 0;
    while (this.#waiting > 0) await this.#last;
    if (mine ? theirs > Number(this.#revision) : theirs !== Number(this.#revision)) await this.load();
  }

  #tell() {
    this.#bus.emit("map", this.map);
    this.#bus.emit("doubts", this.doubts);
    this.#bus.emit("history", this.history);
  }

  /** How many corrections wait to be sent. */
  get waits() {
    return this.#waits.count;
  }

  /** @param {number} index @returns {import("../core/types.js").Outline[]} lines drawn on a page that wait to be read */
  framesOn(index) {
    return this.#waits.framesOn(index);
  }

  get map() {
    if (!this.#held.map) throw new Error("the map is not loaded");
    return this.#held.map;
  }

  get loaded() {
    return this.#held.map !== undefined;
  }

  get doubts() {
    return this.#waits.doubts(this.#doubts);
  }

  get history() {
    return this.#waits.history(this.#history);
  }

  /** How many pages the book has, the unread ones counted. */
  get pageCount() {
    return this.#held.count;
  }

  /** @param {number} index */
  pageState(index) {
    return this.#waits.state(index) ?? this.#held.state(index) ?? "read";
  }

  /** @param {number} index @returns {boolean} whether the page never had a picture */
  isDrawn(index) {
    return this.#held.isDrawn(index);
  }

  /** @param {number} index */
  pageId(index) {
    return this.#held.id(index) ?? this.map.pages.find((p) => p.index === index)?.id ?? "";
  }

  /** @param {number} index @returns {Bar[]} none while the page is on its way, see `need` */
  barsOn(index) {
    return this.#waits.bars(index, this.#held.bars(index));
  }

  /** @param {string|undefined} id of a bar on a page that is here */
  bar(id) {
    if (!id) return undefined;
    for (const index of this.#held.here) {
      const found = this.barsOn(index).find((b) => b.id === id);
      if (found) return found;
    }
    return undefined;
  }

  /** @param {number} index whether its lines and bars are here */
  has(index) {
    return this.#held.has(index);
  }

  /**
   * The musical number a bar of a page that is here lies in.
   *
   * @param {Bar} bar
   */
  numberOf(bar) {
    const bars = this.barsOn(bar.page);
    const place = (/** @type {string|undefined} */ id) => bars.findIndex((b) => b.id === id);
    const at = place(bar.id);
    return this.map.numbers.find((n) => {
      const { firstPage = 0, lastPage = 0 } = n;
      const begun = firstPage === bar.page ? place(n.firstBar) <= at : firstPage !== 0 && firstPage < bar.page;
      return begun && (lastPage === bar.page ? at <= place(n.lastBar) : bar.page < lastPage);
    });
  }

  /**
   * Fetches everything afresh: what is asked in the whole book, lines and bars of one page.
   *
   * @param {number} [index] that page; the one fetched last when absent
   * @param {string} [bar] whose page is wanted beside it
   */
  async load(index = this.#wanted, bar = "") {
    this.#wanted = index;
    const [book, found, history, answer] = await Promise.all([
      readRaw(this.#book, ""),
      readRaw(this.#book, "/doubts"),
      readRaw(this.#book, "/history"),
      this.#fetch(index, bar),
    ]);
    await this.#waits.look();
    this.title = `${book.title}, ${book.part}`;
    this.#held.forget();
    this.#doubts = found.doubts.filter((d) => d.severity !== "info");
    this.#history = history;
    this.#held.list(book);
    this.#take(answer.data, answer.revision);
    this.#bus.emit("doubts", this.doubts);
    this.#bus.emit("history", this.history);
  }

  /**
   * @param {number} index
   * @param {string} [bar]
   * @returns {Promise<import("../core/api.js").Answered<BarMap>>}
   */
  #fetch(index, bar) {
    return call("GET", bookPath(this.#book, `/map?pages=${index}${bar ? `&bar=${encodeURIComponent(bar)}` : ""}`), { raw: true });
  }

  /** @param {number} index of the page that is looked at now: what is fetched afresh is fetched of it */
  look(index) {
    this.#wanted = index;
    return this.need(index);
  }

  /**
   * Fetches lines and bars of a page, unless they are here.
   *
   * @param {number} index
   */
  async need(index) {
    if (this.has(index)) return;
    const known = this.#coming.get(index);
    if (known) return known;
    const coming = this.#fetch(index).then(
      async (found) => {
        this.#coming.delete(index);
        await this.#fits(index, found);
      },
      (error) => {
        this.#coming.delete(index);
        throw error;
      },
    );
    this.#coming.set(index, coming);
    return coming;
  }

  /**
   * Lays a page over what is here, once it is of the same revision: meanwhile it may be that of a step whose answer is on its way, or one
   * that a step has passed.
   *
   * @param {number} index
   * @param {import("../core/api.js").Answered<BarMap>} came
   */
  async #fits(index, came) {
    if (came.revision !== this.#revision) await this.#last;
    const found = Number(came.revision) < Number(this.#revision) && !this.has(index) ? await this.#fetch(index) : came;
    if (found.revision === this.#revision) this.#take(found.data, found.revision);
    else if (!this.has(index)) await this.#afresh(index);
  }

  /** @param {number} index of a page that came out of another revision; what is looked at goes first */
  async #afresh(index) {
    await this.load();
    if (index === this.#wanted) await this.need(index);
  }

  /**
   * Lays what came over what is here: lines and bars of some pages, all else of the whole book.
   *
   * @param {BarMap} map
   * @param {string} revision
   */
  #take(map, revision) {
    this.#held.lay(map);
    this.#waits.forget();
    this.#revision = revision;
    this.#bus.emit("map", this.map);
  }

  /** History and the states of pages follow a step; they are not waited for. */
  async #beside() {
    const [history, book] = await Promise.all([readRaw(this.#book, "/history"), readRaw(this.#book, "")]);
    this.#history = history;
    this.#held.list(book);
    this.#bus.emit("history", this.history);
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

  /**
   * Adds a line of music that was missed; it is read in its frame.
   *
   * @param {number} page its index
   * @param {import("../core/types.js").Outline} outline
   * @returns {Promise<boolean>} whether it was added
   */
  line(page, outline) {
    const name = who();
    const drawn = { kind: "add-system", page, outline };
    return this.#write(`/pages/${encodeURIComponent(this.pageId(page))}/line`, name ? { ...drawn, who: name } : drawn);
  }

  /**
   * What corrections would change.
   *
   * @param {Correction[]} corrections
   */
  check(corrections) {
    return this.#checks.of(corrections, this.#revision);
  }

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
    const pages = this.#held.here.join(",");
    /** @type {Promise<import("../core/api.js").Answered<BarMap>>} */
    const map = call("GET", bookPath(this.#book, `/map?pages=${pages}`), { raw: true });
    const [{ data, revision }, history] = await Promise.all([map, readRaw(this.#book, "/history")]);
    const fits = body ? stillMeans(body, this.map, data) : sameSteps(this.#history, history);
    return fits ? revision : undefined;
  }

  /**
   * @param {string} path
   * @param {object|undefined} body
   */
  async #send(path, body) {
    try {
      let seen = this.#revision;
      const post = async (/** @type {string} */ match) => {
        seen = match;
        /** @type {import("../core/api.js").Answered<import("../core/types.js").CorrectionAnswer>} */
        const { data } = await call("POST", bookPath(this.#book, `${path}?pages=changed`), { body: body ?? {}, match });
        return data;
      };
      const data = await write(this.#revision, post, () => this.#newer(body));
      if (data.repeated) {
        // it was made before, and the answer to that got lost on its way
        await this.load();
        return true;
      }
      this.#doubts = data.doubts.filter((d) => d.severity !== "info");
      if (seen !== this.#revision) {
        // others were faster: pages that are here may have changed with theirs
        await this.load();
      } else {
        this.#take(data.map, String(data.revision));
      }
      this.#bus.emit("made", data.entry);
      // what was made is seen first
      whenShown(() => void this.#beside().catch(() => {}));
      return true;
    } catch (error) {
      if (error instanceof Kept) {
        await this.#waits.look();
        this.#tell();
        this.#bus.emit("failed", error);
        return true;
      }
      if (isStale(error)) {
        const before = new Set(this.#history.entries.map((e) => e.id));
        const named = sayCorrection(body, this.bar(textOf(body, "bar")));
        await this.load();
        const theirs = this.#history.entries.filter((e) => !before.has(e.id));
        this.#bus.emit("stale", body && { mine: named, theirs, again: () => this.#write(path, body) });
      } else {
        this.#bus.emit("failed", error);
      }
      return false;
    }
  }
}
