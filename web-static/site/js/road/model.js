import { bookPath, call, isSilent, isStale, Kept, read, readRaw } from "../core/api.js";
import { Newest } from "../core/newest.js";
import { waitingOf, whenDifferent } from "../core/outbox.js";
import { changesNow, historyNow, ofChanges, planWaits, settingsNow } from "../core/pending.js";
import { who } from "../core/store.js";
import { forget } from "../core/toast.js";
import { numberNo } from "../core/words.js";
import { stepsOf } from "../shared/answer.js";
import { sentence } from "./kinds.js";
import { marksNow } from "./waiting.js";

/** @typedef {import("../core/types.js").Change} Change */
/** @typedef {import("../core/types.js").KeptChange} KeptChange */
/**
 * @template T
 * @typedef {import("../core/api.js").Answered<T>} Answered
 */

/** @typedef {{changes: KeptChange[], marks: import("../core/types.js").RoadMark[], history: import("../core/types.js").History, settings?: import("../core/types.js").Settings, plan?: import("../core/types.js").BesideForm}} Known what the service has */

/** The road map and the show's changes, as the service has them, with what waits to be sent laid over it. */
export class RoadModel {
  #book;
  #bus;
  #revision = "";
  #newest = new Newest();
  #lists = new Newest();
  /** @type {Known} */
  #known = { changes: [], marks: [], history: { entries: [], undo: 0, redo: 0 } };
  /** What waits to be sent. @type {import("../core/outbox.js").Waiting[]} */
  #edits = [];
  /** @type {KeptChange[]} */
  changes = [];
  /** @type {import("../core/types.js").RoadNumber[]} */
  numbers = [];
  /** @type {import("../core/types.js").RoadMark[]} */
  marks = [];
  /** @type {import("../core/types.js").PageInfo[]} */
  pages = [];
  /** What this part is called. */
  part = "";
  /** What the book is called. */
  title = "";
  /** What of the plan is shown beside the form. @type {import("../core/types.js").BesideForm|undefined} */
  plan;
  /** Of the map that the form is drawn from. */
  #map = 0;
  /** What the form follows from besides the map. */
  #basis = "";
  /** How many answers to `load` are on their way. */
  #loading = 0;
  /** @type {import("../core/types.js").Settings|undefined} */
  settings;
  /** The other part beside this one, and what the bars of each change are called in it. @type {import("../core/types.js").Align} */
  beside = { revision: 0 };
  /** @type {import("../core/types.js").History} */
  history = { entries: [], undo: 0, redo: 0 };

  /**
   * @param {string} book
   * @param {import("../core/bus.js").EventBus<import("../core/types.js").RoadEvents>} bus gets `road` after every load and step, `listed` when what stands beside the list of changes is there
   */
  constructor(book, bus) {
    this.#book = book;
    this.#bus = bus;
    whenDifferent(() => void this.#outbox());
  }

  /** What waits has become different: it was sent, taken back, or dropped. */
  async #outbox() {
    const before = this.#edits.length;
    this.#edits = await waitingOf(bookPath(this.#book));
    if (before > 0 && this.#edits.length === 0) await this.load().catch(() => {});
    else this.#show();
  }

  /** Lays what waits over what the service has. */
  #show() {
    const { changes, marks, history, settings, plan } = this.#known;
    const edits = this.#edits;
    this.changes = changesNow(changes, edits);
    this.marks = edits.length ? marksNow(marks, this.changes, this.numbers) : marks;
    this.history = historyNow(history, edits.filter(ofChanges), bookPath(this.#book, "/changes/redo"));
    this.settings = settings && settingsNow(settings, edits);
    this.plan = plan && edits.length ? { ...plan, waits: planWaits(edits) } : plan;
    this.#bus.emit("road");
  }

  /** The last step; the event that tells of it may come before its answer. @type {Promise<unknown>} */
  #writing = Promise.resolve();

  /** @param {{revision: number}} event of a change in the list; what this page did itself is known already */
  async heard(event) {
    await this.#writing;
    if (String(event.revision) !== this.#revision) await this.load();
  }

  #besideNow() {
    return read(this.#book, "/align?only=changes").catch(() => this.beside);
  }

  async load() {
    this.#loading++;
    try {
      await this.#load();
    } finally {
      this.#loading--;
    }
  }

  /**
   * @param {boolean} [again] whether it is asked once more where the answers are of different moments
   * @returns {Promise<void>}
   */
  async #load(again = true) {
    /** @type {Promise<Answered<import("../core/types.js").ChangeList>>} */
    const list = call("GET", bookPath(this.#book, "/changes"), { raw: true });
    const mayShow = this.#newest.ask();
    const [changes, road, history, settings, book, beside] = await Promise.all([
      list,
      readRaw(this.#book, "/roadmap"),
      readRaw(this.#book, "/changes/history"),
      readRaw(this.#book, "/settings"),
      readRaw(this.#book, ""),
      this.#besideNow(),
    ]);
    if (!mayShow()) return;
    // a step of somebody else's came between the two
    if (again && String(road.changesRevision) !== changes.revision) return this.#load(false);
    this.beside = beside;
    this.#revision = changes.revision;
    this.numbers = road.numbers;
    this.#map = road.revision;
    this.#basis = road.basis;
    this.pages = book.pages;
    this.part = book.part;
    this.title = `${book.title}, ${book.part}`;
    this.#known = { changes: changes.data.changes, marks: road.marks, history, settings, plan: road.beside };
    this.#edits = await waitingOf(bookPath(this.#book));
    this.#show();
  }

  /**
   * Says what a text means; stores nothing.
   *
   * @param {string} text
   * @param {"mine"|"other"} [numbers] whose bar numbers the words go by
   * @returns {Promise<import("../core/types.js").UnderstoodLine[]>}
   */
  async understand(text, numbers = "mine") {
    /** @type {Answered<{lines: import("../core/types.js").UnderstoodLine[]}>} */
    const { data } = await call("POST", bookPath(this.#book, "/changes/understand"), { body: { text, numbers } });
    return data.lines;
  }

  /**
   * Returns a change in words, as the director says it; empty where it says nothing now.
   *
   * @param {KeptChange} change
   */
  words(change) {
    const says = this.marks.find((m) => m.change === change.id)?.says ?? "";
    return says && change.number ? `${numberNo(change.number)}: ${says}` : says;
  }

  /**
   * Returns what words say instead of a change; it holds as that did.
   *
   * @param {Change} change
   * @param {string} words
   * @returns {Promise<Change>}
   */
  async inWords({ kind, version, since, until, replaces, note }, words) {
    const [line, ...more] = await this.understand(words);
    const lost = line?.note && line.understood?.kind !== kind; // kept as it was said, for nobody knows what it means
    if (!line?.understood || lost || line.asks || more.length) throw new Error(more.length ? "Say one thing only: a change is edited one by one." : (line?.asks ?? "This was not understood."));
    const said = { ...line.understood };
    delete said.replaces; // it is this change that is said anew
    return { ...(version ? { version } : {}), ...(since ? { since } : {}), ...(until ? { until } : {}), ...(replaces ? { replaces } : {}), ...(note ? { note } : {}), ...said };
  }

  /**
   * Says what would follow from a change; stores nothing.
   *
   * @param {Change} change
   * @param {string} [instead] id of the change it takes the place of
   * @returns {Promise<import("../core/types.js").PlanFinding[]>}
   */
  async checks(change, instead) {
    const known = instead && !instead.startsWith("waiting-") ? `?instead=${encodeURIComponent(instead)}` : "";
    try {
      /** @type {Answered<{checks: import("../core/types.js").PlanFinding[]}>} */
      const { data } = await call("POST", bookPath(this.#book, `/changes/check${known}`), { body: change });
      return data.checks;
    } catch (error) {
      if (!isSilent(error)) throw error;
      return [{ severity: "info", code: "not-known", text: "barmap is not answering: what follows from it, and what speaks against it, is worked out when it does." }];
    }
  }

  /** The numbers in the order of the night. */
  night() {
    const order = new Map((this.plan?.numbers ?? []).map((n, i) => [n.label, i]));
    return [...this.numbers].sort((a, b) => (order.get(a.label) ?? 0) - (order.get(b.label) ?? 0));
  }

  /**
   * @param {string} method
   * @param {string} path
   * @param {object} [body]
   * @returns {Promise<import("../core/types.js").RoadAnswer|"waits"|undefined>} nothing where somebody else changed the list first
   */
  #write(method, path, body) {
    // one after the other, so that quick fingers never meet their own shadow
    const step = this.#writing.then(() => this.#send(method, path, body));
    this.#writing = step.catch(() => {});
    return step;
  }

  /**
   * @param {string} method
   * @param {string} path
   * @param {object} [body]
   * @returns {Promise<import("../core/types.js").RoadAnswer|"waits"|undefined>}
   */
  async #send(method, path, body) {
    forget("changes"); // a message about the step before can't take this one back
    try {
      /** @type {Answered<import("../core/types.js").RoadAnswer>} */
      const { data } = await call(method, bookPath(this.#book, path), { body, match: this.#revision, answer: "numbers=changed" });
      if (data.repeated) {
        // it was made before, and the answer to that got lost on its way
        await this.load();
        return { ...data, changes: this.changes };
      }
      this.#revision = String(data.revision);
      const { road } = data;
      // the book was corrected meanwhile, its settings were, or it is another day; or what was asked before the step is still to come
      if (road.revision !== this.#map || road.before !== this.#basis || this.#loading > 0) {
        await this.load();
        return data;
      }
      this.#basis = road.basis;
      this.numbers = this.numbers.map((number, i) => road.numbers[road.at.indexOf(i)] ?? number);
      this.#known = { ...this.#known, changes: data.changes, plan: road.beside, marks: road.marks };
      this.#show();
      void this.#listed();
      return data;
    } catch (error) {
      if (error instanceof Kept) {
        await this.#outbox();
        return "waits";
      }
      if (isStale(error)) return this.#late(method, path, body);
      throw error;
    }
  }

  /** What stands beside the list of changes is no part of a step's answer. */
  async #listed() {
    const mayShow = this.#lists.ask();
    const [history, beside] = await Promise.all([readRaw(this.#book, "/changes/history").catch(() => this.#known.history), this.#besideNow()]);
    if (!mayShow()) return;
    this.beside = beside;
    this.#known = { ...this.#known, history };
    this.history = historyNow(history, this.#edits.filter(ofChanges), bookPath(this.#book, "/changes/redo"));
    this.#bus.emit("listed");
  }

  /**
   * Somebody else changed the list first. What is added is added all the same; about anything else the player is asked.
   *
   * @param {string} method
   * @param {string} path
   * @param {object} [body]
   * @returns {Promise<import("../core/types.js").RoadAnswer|"waits"|undefined>}
   */
  async #late(method, path, body) {
    const before = new Set(this.history.entries.map((e) => e.id));
    const was = this.changes.find((c) => path.endsWith(`/${encodeURIComponent(c.id)}`));
    await this.load();
    if (method === "POST" && path === "/changes") return this.#send(method, path, body);
    const theirs = this.history.entries.filter((e) => !before.has(e.id));
    const mine = was ? `${method === "DELETE" ? "Take out" : "Edit"}: ${sentence(was)}` : "";
    this.#bus.emit("stale", mine ? { mine, theirs, again: () => this.#write(method, path, body) } : undefined);
    return undefined;
  }

  /** @param {Change} change */
  add(change) {
    const name = who();
    return this.#write("POST", "/changes", name ? { ...change, who: name } : change);
  }

  /** @param {Change[]} changes made in one step, as a pasted list is */
  addAll(changes) {
    const name = who();
    return changes.length === 1 ? this.add(changes[0]) : this.#write("POST", "/changes", name ? { changes, who: name } : { changes });
  }

  /**
   * @param {KeptChange} change
   * @param {boolean} on
   */
  switch(change, on) {
    return this.edit(change, { on });
  }

  /**
   * @param {KeptChange} change
   * @param {Record<string, unknown>} values null takes one out
   */
  edit(change, values) {
    return this.#write("PATCH", `/changes/${encodeURIComponent(change.id)}`, values);
  }

  /** @param {KeptChange} change */
  remove(change) {
    return this.#write("DELETE", `/changes/${encodeURIComponent(change.id)}`);
  }

  /**
   * Says one reading of a question beyond doubt: the change it is about becomes what is offered, and what else that takes is added.
   *
   * @param {string|undefined} id of the change the question is about
   * @param {import("../core/types.js").KeptChange[]} instead
   * @returns {Promise<number>} how many steps that took
   */
  async answer(id, instead) {
    let done = 0;
    for (const { method, path, body } of stepsOf(this.changes, id, instead, who())) {
      if (!(await this.#write(method, path, body))) break;
      done++;
    }
    return done;
  }

  undo() {
    return this.#write("POST", "/changes/undo", {});
  }

  redo() {
    return this.#write("POST", "/changes/redo", {});
  }
}
