import { bookPath, call, isMissing, isSilent, isStale, read, write } from "../core/api.js";
import { EventBus } from "../core/bus.js";
import { once } from "../core/clock.js";
import { CommandStack } from "../core/commands.js";
import { confirm } from "../core/dialog.js";
import { el, need, show } from "../core/dom.js";
import { whenElsewhere } from "../core/here.js";
import { LiveBook } from "../core/live.js";
import { markCards } from "../core/mates.js";
import { Newest } from "../core/newest.js";
import { bookInAddress, deadEnd, noBook, shell } from "../core/shell.js";
import { complain, toast } from "../core/toast.js";
import { Care } from "./care.js";
import { EditionLine } from "./edition.js";
import { Hooks } from "./hooks.js";
import { JobBar } from "./job.js";
import { lead } from "./lead.js";
import { PageGrid } from "./pages.js";
import { retakeStep } from "../shared/retake.js";
import { otherPart } from "./other-part.js";
import { saveAs, withoutService } from "./save.js";
import { SecondReading } from "./second.js";
import { scoreRemarks } from "./score.js";
import { Sharer } from "./share.js";
import { Uploader } from "./upload.js";

/** @typedef {import("../core/types.js").PageInfo} PageInfo */
/** @typedef {import("../core/types.js").HistoryEntry} HistoryEntry */

/** One book: its pages, and new ones. */
class BookRoom {
  #id = bookInAddress();
  /** @type {EventBus<import("../core/types.js").BookEvents>} */
  #bus = new EventBus();
  #steps = new CommandStack(50);
  #job = new JobBar(() => void this.#skip());
  #head = el("div");
  #next = el("div", { class: "next" });
  #other = otherPart(this.#id);
  #uploader = new Uploader(this.#id, this.#bus);
  #remarks = el("div");
  #grid = new PageGrid(this.#id, this.#bus);
  #save = el("div");
  #care = new Care(this.#id, () => void this.#load());
  #second = new SecondReading(this.#id, this.#bus);
  #sharer = new Sharer(this.#id);
  #edition = new EditionLine(this.#id);
  #hooks = new Hooks(this.#id);
  /** @type {PageInfo[]} */
  #pages = [];
  /** Of the book as it is shown. */
  #revision = "";
  #newest = new Newest();
  /** Many events in a row lead to one reload. */
  #soon = once(150, () => void this.#load());
  /** @type {{page: PageInfo, before: Set<string>, names: string[]}|undefined} */
  #retaken;

  async start() {
    shell({ room: "book", book: this.#id });
    if (!this.#id) return deadEnd("Which book?", "The address names no book.");
    show(
      need("main"),
      el(
        "div",
        { class: "wide" },
        this.#head, this.#next, this.#uploader.node, this.#job.node, this.#remarks, this.#grid.node,
        el("section", { class: "card more-of", "aria-labelledby": "more-of" }, el("h2", { id: "more-of", text: "More of this book" }), this.#sharer.node, this.#second.node, this.#other, this.#save, this.#edition.node, this.#hooks.node, this.#care.node),
      ),
    );
    this.#listen();
    // the line first: what happens while the book is loaded is heard
    new LiveBook(bookPath(this.#id, "/events"), this.#bus);
    await Promise.all([this.#load(), this.#sharer.load(), this.#hooks.load()]);
  }

  #listen() {
    const bus = this.#bus;
    bus.on("live:job", (job) => {
      this.#job.draw(job);
      this.#soon();
    });
    for (const name of /** @type {const} */ (["live:page", "live:map", "live:edition", "live:found", "uploaded"])) bus.on(name, () => this.#soon());
    whenElsewhere(() => markCards(this.#grid.node));
    bus.on("live:share", () => void this.#sharer.load());
    bus.on("live:lost", () => toast("barmap is not answering: what others do is shown when it does.", { key: "live" }));
    bus.on("move", ({ page, to }) => void this.#move(page, to));
    bus.on("delete", (page) => void this.#delete(page));
    bus.on("again", (page) => void this.#again(page));
    bus.on("retake", ({ page, file }) => void this.#retake(page, file));
    addEventListener("keydown", (event) => {
      if (!(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== "z") return;
      if (event.target instanceof HTMLInputElement) return;
      event.preventDefault();
      void (event.shiftKey ? this.#steps.redo() : this.#steps.undo()).catch((e) => this.#failed(e));
    });
  }

  async #load() {
    const mayShow = this.#newest.ask();
    try {
      const [{ data: book, revision }, found] = await Promise.all([
        this.#book(),
        read(this.#id, "/doubts").catch(() => ({ doubts: [] })),
      ]);
      if (!mayShow()) return;
      this.#pages = book.pages;
      this.#revision = revision;
      this.#draw(book);
      this.#job.draw(book.job);
      show(this.#remarks, scoreRemarks(found.doubts));
      this.#grid.draw(this.#pages, found.doubts);
      markCards(this.#grid.node);
      // without the service these have nothing to say
      await this.#edition.load().catch(unlessSilent);
      await this.#second.load().catch(unlessSilent);
      // over the local net nothing is told of the folder
      await this.#care.load(this.#pages, book.keeps).catch(() => undefined);
      await this.#putInPlace(book.job !== undefined);
    } catch (error) {
      if (isMissing(error)) noBook();
      else complain(error);
    }
  }

  /** @returns {Promise<import("../core/api.js").Answered<import("../core/types.js").Book>>} */
  #book() {
    return call("GET", bookPath(this.#id));
  }

  /**
   * Changes the pages as they are shown.
   *
   * @template T
   * @param {string} method
   * @param {string} route
   * @param {unknown} body
   * @param {(pages: PageInfo[]) => boolean} still whether it is still meant for these pages
   * @returns {Promise<import("../core/api.js").Answered<T>>}
   */
  #write(method, route, body, still) {
    return write(
      this.#revision,
      (match) => call(method, bookPath(this.#id, route), { body, match }),
      async () => {
        const { data, revision } = await this.#book();
        return still(data.pages) ? revision : undefined;
      },
    );
  }

  /** @param {unknown} error */
  #failed(error) {
    if (!isStale(error)) return complain(error);
    toast("Someone changed the book meanwhile. Look at it and try again.", { key: "stale" });
    this.#soon();
  }

  /** @param {import("../core/types.js").Book} book */
  #draw(book) {
    shell({ room: "book", book: this.#id, title: `${book.title}, ${book.part}` });
    show(this.#head, el("h1", { text: book.title }), el("p", { class: "soft", text: book.part }));
    const filled = book.bars > 0 || this.#pages.some((p) => p.state === "read" || p.state === "verified");
    show(this.#next, lead(this.#id, book));
    this.#uploader.show(book.keeps, filled);
    show(this.#save, filled ? saveAs(this.#id) : null, filled ? withoutService(this.#id) : null);
    this.#other.hidden = !filled;
  }

  /** @param {string[]} order */
  async #order(order) {
    const seen = this.#pages.map((p) => p.id).join();
    await this.#write("POST", "/pages/order", { order }, (pages) => pages.map((p) => p.id).join() === seen);
    await this.#load();
  }

  /**
   * @param {PageInfo} page
   * @param {number} to place in the row, 0 first
   */
  async #move(page, to) {
    const before = this.#pages.map((p) => p.id);
    const after = before.filter((id) => id !== page.id);
    after.splice(to, 0, page.id);
    if (after.join() === before.join()) return;
    try {
      await this.#steps.run({
        text: `Page ${page.index} moved`,
        run: () => this.#order(after),
        undo: () => this.#order(before),
      });
      toast(`Page ${page.index} is now page ${to + 1}.`, {
        key: "order",
        action: { label: "Put it back", last: "book", run: () => void this.#steps.undo().catch((e) => this.#failed(e)) },
      });
    } catch (error) {
      this.#failed(error);
    }
  }

  /** @param {PageInfo} page */
  async #delete(page) {
    try {
      await this.#write("DELETE", `/pages/${encodeURIComponent(page.id)}`, undefined, (pages) => pages.some((p) => isAsSeen(p, page)));
      await this.#load();
    } catch (error) {
      this.#failed(error);
    }
  }

  /**
   * Sends a new picture of a page. It waits at the end of the book until it is read; then
   * {@link #putInPlace} lets it take the old one's place.
   *
   * @param {PageInfo} page
   * @param {File} file
   */
  async #retake(page, file) {
    const before = new Set(this.#pages.map((p) => p.id));
    const names = await this.#uploader.send([file]);
    if (names.length === 0) return;
    this.#retaken = { page, before, names };
    toast(`Page ${page.index} stays until the new picture has been read.`, { key: "retake" });
    this.#soon();
  }

  /** @param {boolean} reading whether pages are being read */
  async #putInPlace(reading) {
    const retaken = this.#retaken;
    const step = retaken && retakeStep(this.#pages, retaken, reading);
    if (!retaken || !step || step.kind === "wait") return;
    this.#retaken = undefined;
    const { page } = retaken;
    if (step.kind === "refuse") {
      for (const fresh of step.fresh) await this.#delete(fresh);
      toast(`Page ${page.index} stays as it was. The new picture was not taken: ${step.why}`, { kind: "bad", key: "retake" });
      return;
    }
    const sure = page.state === "failed" || await confirm(
      `Put the new picture in place of page ${page.index}?`,
      "It has been read. What was corrected on the old one is carried over where the bars match, and you can take it back. If you leave it, both pages stay, the new one at the end of the book.",
      "Put it in place",
    );
    if (!sure) return;
    try {
      if (step.fresh.length > 1) await this.#order(step.order);
      await this.#replace(page, step.fresh[0]);
    } catch (error) {
      this.#failed(error);
    }
  }

  /**
   * Puts a new picture in place of a page, with its corrections.
   *
   * @param {PageInfo} page
   * @param {PageInfo|undefined} fresh
   */
  async #replace(page, fresh) {
    if (!fresh) return;
    /** @type {HistoryEntry|undefined} */
    let entry;
    await this.#steps.run({
      text: `New picture of page ${page.index}`,
      run: async () => {
        if (entry) return this.#history("/redo", entry);
        /** @type {import("../core/api.js").Answered<{entry: HistoryEntry}>} */
        const { data } = await this.#write("POST", `/pages/${encodeURIComponent(page.id)}/retake`, { with: fresh.id }, (pages) =>
          [page, fresh].every((seen) => pages.some((p) => isAsSeen(p, seen))),
        );
        entry = data.entry;
        await this.#load();
      },
      undo: () => (entry ? this.#history("/undo", entry) : undefined),
    });
    if (!entry) return;
    toast(`${entry.text}.`, {
      key: "retake",
      action: { label: "Take it back", last: "book", run: () => void this.#steps.undo().catch((e) => this.#failed(e)) },
    });
  }

  /**
   * Takes a step of the corrections back or makes it again, unless another one is next.
   *
   * @param {"/undo"|"/redo"} route
   * @param {HistoryEntry} entry
   */
  async #history(route, entry) {
    const { revision } = await this.#book();
    const { entries, redo } = await read(this.#id, "/history");
    const next = route === "/undo" ? entries.find((e) => !e.undone) : entries[redo - 1];
    if (next?.id !== entry.id) throw new Error("The book was corrected since the new picture was put in; take that back first.");
    // for this revision only: a correction made in between is not to be taken back instead
    await call("POST", bookPath(this.#id, route), { body: {}, match: revision });
    await this.#load();
  }

  /** Gives up the page being read. */
  async #skip() {
    try {
      await call("POST", bookPath(this.#id, "/pages/skip"), { body: {} });
    } catch (error) {
      this.#failed(error);
    }
  }

  /** @param {PageInfo} page */
  async #again(page) {
    try {
      /** @type {import("../core/api.js").Answered<{job: import("../core/types.js").Job}>} */
      const { data } = await this.#write("POST", `/pages/${encodeURIComponent(page.id)}/again`, {}, (pages) => pages.some((p) => isAsSeen(p, page)));
      this.#job.draw(data.job);
      await this.#load();
    } catch (error) {
      this.#failed(error);
    }
  }
}

/** @param {unknown} error that is none where only nothing answered */
function unlessSilent(error) {
  if (!isSilent(error)) throw error;
}

/**
 * Tells whether nobody checked a page since it was seen.
 *
 * @param {PageInfo} now
 * @param {PageInfo} seen
 */
function isAsSeen(now, seen) {
  return now.id === seen.id && (now.state === "verified") === (seen.state === "verified");
}

void new BookRoom().start();
