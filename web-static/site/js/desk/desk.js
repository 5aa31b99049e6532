import { whenShown } from "../core/clock.js";
import { el } from "../core/dom.js";
import { LOOKS, mayCorrect } from "../core/may.js";
import { recall, remember } from "../core/store.js";
import { toast } from "../core/toast.js";
import { spoken } from "../core/words.js";
import { historyList } from "../shared/lists.js";
import { waitsLine } from "../shared/waits.js";
import { restCount } from "./bar-form.js";
import { barView } from "./bar-view.js";
import { askChecked } from "./checked.js";
import { centre, nearest, neighbour } from "./geometry.js";
import { Hand } from "./hand.js";
import { showHelp } from "./help.js";
import { Keys, panStep } from "./keys.js";
import { doubtAfter, doubtList } from "./lists.js";
import { MateMarks } from "./mates.js";
import { marksOf } from "./overlay.js";
import { Panel } from "./panel.js";
import { quickly } from "./quick.js";
import { Shape } from "./shape.js";
import { Stage } from "./stage.js";
import { Toolbar } from "./toolbar.js";
import { Tools } from "./tools.js";

/** @typedef {import("../core/types.js").Bar} Bar */
/** @typedef {import("../core/types.js").Finding} Finding */
/** @typedef {import("../core/types.js").Correction} Correction */

/** What keys and buttons do that changes nothing. */
const LOOKING = new Set(["left", "right", "up", "down", "doubt", "also", "page", "history", "larger", "smaller", "fit", "close", "pan", "page-before", "page-after", "dim", "help", "leave"]);

const PAPER = ["dim", "bright", "night"];

/** The correction desk: page, panel and keys, bound to the model. */
export class Desk {
  #book;
  #bus;
  #model;
  #hand;
  #shape;
  #stage;
  #mates;
  #tools;
  #panel;
  #toolbar = new Toolbar((run) => this.#act(run), (index) => this.#jump(index));
  #live = el("p", { class: "visually-hidden", "aria-live": "polite", role: "status" });
  #typed = el("p", { class: "typed", hidden: true, "aria-hidden": "true" });
  #index = 1;
  /** @type {string|undefined} */
  #selected;
  /** @type {Finding|undefined} */
  #doubt;
  /** @type {Set<string>} */
  #folds = new Set(recall("folds", ["Barlines"]));
  node;

  /**
   * @param {string} book
   * @param {import("../core/bus.js").EventBus<import("../core/types.js").DeskEvents>} bus
   * @param {import("./model.js").DeskModel} model
   */
  constructor(book, bus, model) {
    this.#book = book;
    this.#bus = bus;
    this.#model = model;
    this.#hand = new Hand(model);
    this.#shape = new Shape(model, {
      bar: () => this.#bar,
      correct: (c) => this.#correct(c),
      choose: (bar) => this.#choose(bar),
      drawn: () => this.draw(),
      leave: () => this.#tools.leave(),
      say: (text) => (this.#live.textContent = text),
    });
    this.#stage = new Stage(book, bus);
    this.#mates = new MateMarks(this.#stage.node);
    this.#tools = new Tools(this.#stage, (text) => {
      this.#live.textContent = text;
      this.#toolbar.node.querySelector("#tool-add")?.setAttribute("aria-pressed", String(this.#stage.adding));
    });
    this.#panel = new Panel({
      bar: { name: "Bar", draw: () => this.#withWaits(this.#drawBar()) },
      doubts: { name: "Doubts", draw: () => this.#withWaits(this.#drawDoubts()), badge: () => model.doubts.length, short: () => model.doubts.length === 0 },
      history: { name: "History", draw: () => historyList(model.history.entries) },
    });
    this.node = el("div", { class: "desk" }, el("h1", { class: "visually-hidden", text: "Correction desk" }), this.#toolbar.node, this.#stage.node, this.#panel.node, this.#live, this.#typed);
    this.node.dataset.paper = recall("paper", "dim");
    new Keys((run, event) => this.#act(run, event), {
      typed: (figures) => {
        this.#typed.hidden = !figures;
        this.#typed.textContent = figures;
      },
      done: (n) => this.#count(n),
      wanted: () => ["rest", "multi-rest"].includes(this.#bar?.content ?? ""),
      answer: (n) => this.#answer(n),
    });
    this.#listen();
  }

  #listen() {
    const bus = this.#bus;
    this.node.addEventListener("focusout", (event) => {
      if (event.relatedTarget === null) whenShown(() => this.#keepFocus());
    });
    bus.on("map", () => this.#keepPlace());
    bus.on("doubts", () => this.draw());
    bus.on("history", () => {
      this.#drawTools();
      // of a bar the form says nothing that comes with the history
      if (this.#panel.tab === "history" || (this.#panel.tab === "bar" && !this.#bar)) this.#panel.draw();
    });
    bus.on("busy", (busy) => this.node.classList.toggle("busy", busy));
    bus.on("pick", (bar) => (bar && this.#hand.more ? this.#also(bar) : this.#select(bar)));
    bus.on("pick-also", ({ bar, through }) => this.#also(bar, through));
    bus.on("cut-at", ({ bar, p }) => void this.#shape.cut(bar, p));
    bus.on("line-drawn", (outline) => {
      this.#tools.leave();
      if (outline) void this.#shape.line(this.#index, outline);
    });
    bus.on("live:job", ({ id, state, text }) => {
      if (id.startsWith("line-")) this.#shape.reads(state === "running" ? text : "");
    });
    bus.on("mark-moved", ({ bar, to }) => void this.#shape.putMark(bar, to));
    bus.on("drag-end", ({ bar, side, p }) => void this.#correct({ kind: "move-barline", bar: bar.id, side, x: p[0], y: p[1] }));
  }

  /** A field that was left with Enter leaves the keys to the page. */
  #keepFocus() {
    if (document.activeElement === document.body && !document.querySelector("dialog[open]")) this.#stage.focus();
  }

  /** @returns {Bar|undefined} */
  get #bar() {
    return this.#model.bar(this.#selected);
  }

  get #page() {
    return this.#model.map.pages.find((p) => p.index === this.#index) ?? this.#model.map.pages[0];
  }

  /** Where the doubt at hand is, when it is about no bar. */
  get #region() {
    const doubt = this.#doubt;
    return doubt && !doubt.bar && doubt.page === this.#index && this.#model.doubts.includes(doubt) ? doubt.outline : undefined;
  }

  /** Goes to the page itself. */
  focus() {
    this.#stage.focus();
  }

  /** @param {number} index */
  open(index) {
    this.#index = index;
    const bar = this.#bar;
    if (bar && bar.page !== index) this.#selected = undefined;
    this.#tools.leave();
    history.replaceState(null, "", `?b=${encodeURIComponent(this.#book)}&p=${index}`);
    this.draw();
    const { pages } = this.#model.map;
    // the next page is there when it is turned to
    void this.#model.look(index).then(() => this.#model.need(pages[pages.findIndex((p) => p.index === index) + 1]?.index ?? index)).catch((error) => this.#bus.emit("failed", error));
  }

  /**
   * Chooses the bar an address leads to, and goes to a field of it.
   *
   * @param {string} id of a bar entry; nothing happens when there is none
   * @param {string} field id of a field of the bar form, or empty
   */
  show(id, field) {
    const bar = this.#model.bar(id);
    if (!bar) return;
    if (bar.page !== this.#index) this.open(bar.page);
    this.#select(bar);
    if (field) this.#field(field);
  }

  /** After a change the chosen bar stays chosen, or the one that took its place does. */
  #keepPlace() {
    if (!this.#model.map.pages.some((p) => p.index === this.#index)) this.#index = this.#model.map.pages[0]?.index ?? 1;
    const was = this.#last;
    if (was && !this.#model.bar(was.id) && was.id === this.#selected) {
      this.#selected = nearest(this.#model.barsOn(was.page).filter((b) => b.system === was.system), was)?.id;
    }
    this.draw();
  }

  /** @type {Bar|undefined} */
  #last;

  draw() {
    const model = this.#model;
    const page = this.#page;
    if (!page) return;
    const bar = this.#bar;
    this.#last = bar ?? this.#last;
    const bars = model.barsOn(page.index);
    this.#stage.draw(page, model.pageId(page.index), bars, bar, { ...marksOf(model.map, model.doubts), region: this.#region, marked: this.#hand.marked, frames: model.framesOn(page.index), drawn: model.isDrawn(page.index) });
    if (!this.#tools.active) this.#stage.note(this.#shape.reading || (bars.length || !model.has(page.index) ? "" : "No bars were found on this page."));
    this.#mates.show(page.index, bars, page.systems[0]?.staffSpace ?? 20, bar?.id);
    this.#drawTools();
    this.#panel.draw();
  }

  #drawTools() {
    const model = this.#model;
    const page = this.#page;
    const all = model.map.pages;
    const state = model.pageState(page.index);
    this.#toolbar.draw({
      index: page.index, pages: model.pageCount, first: page.index === all[0].index, last: page.index === all[all.length - 1].index,
      undo: model.history.undo, redo: model.history.redo, adding: this.#stage.adding,
      verified: state === "verified", doubts: model.doubts.length, readable: state !== "failed",
    });
  }

  #drawBar() {
    return barView(this.#model, {
      bar: this.#bar, index: this.#index, folds: this.#folds, hand: this.#hand,
      correct: (c) => void this.#correct(c), act: (run) => this.#act(run),
    });
  }

  /** @param {Node} view under what is not worked out yet */
  #withWaits(view) {
    const line = waitsLine(this.#model.waits, "Bar numbers and doubts that follow are worked out when it answers.", "correction");
    return line ? el("div", {}, line, view) : view;
  }

  #drawDoubts() {
    return doubtList(this.#model.doubts, {
      here: this.#index,
      current: this.#doubt,
      go: (doubt) => void this.#go(doubt),
      correct: (c) => this.#settle(c),
      check: (list) => this.#model.check(list),
      show: (doubt) => this.#showPlace(doubt),
    });
  }

  /** @param {Finding} doubt whose bar, or page, is wanted with all its fields */
  #showPlace(doubt) {
    void this.#go(doubt).then(() => this.#panel.open("bar"));
  }

  /** A reader's keys and drags change nothing, and say why. */
  #looksOnly() {
    toast(LOOKS, { key: "looks" });
    return Promise.resolve(false);
  }

  /** @param {Correction} correction */
  #correct(correction) {
    if (!mayCorrect()) return this.#looksOnly();
    remember("folds", [...this.#folds]);
    return this.#hand.correct(correction, this.#selected);
  }

  #repeat() {
    const again = this.#hand.again(this.#bar);
    if (again) void this.#correct(again);
  }

  /** @param {Bar|undefined} bar to which those that are tapped next are added, or all but it let go */
  #more(bar) {
    const more = !this.#hand.more && this.#hand.marked.size < 2;
    this.#hand.let();
    this.#hand.more = more;
    if (bar && more) this.#hand.marked.add(bar.id);
    this.draw();
  }

  /**
   * @param {Bar|undefined} bar that is marked, or not any more
   * @param {boolean} [through] with all between the chosen one and it
   */
  #also(bar, through) {
    if (!bar) return;
    if (through) this.#hand.through(this.#model.barsOn(this.#index), bar, this.#selected);
    else this.#hand.also(bar, this.#selected);
    const { marked } = this.#hand;
    this.#selected = marked.has(bar.id) ? bar.id : ([...marked].at(-1) ?? bar.id);
    this.draw();
    this.#live.textContent = `${this.#hand.marked.size} bars are marked.`;
  }

  /**
   * Takes an answer, and goes on to the next doubt by itself.
   *
   * @param {Correction} correction
   */
  async #settle(correction) {
    const was = this.#doubt;
    const made = await this.#model.correct(correction);
    if (made && this.#doubt === was) this.#nextDoubt();
    return made;
  }

  /** @param {number} n @returns {boolean} whether the doubt at hand has such an answer */
  #answer(n) {
    const found = this.#panel.tab === "doubts" ? document.getElementById(`answer-${n}`) : null;
    found?.click();
    return found !== null;
  }

  /** @param {number} index of a page, as it was typed */
  #jump(index) {
    if (this.#model.map.pages.some((p) => p.index === index)) this.open(index);
    else this.#drawTools();
    this.#stage.focus();
  }

  /** Begins at the doubt an error at which would shift most, where no place is asked for. */
  begin() {
    const first = this.#model.doubts[0];
    if (first) void this.#go(first);
  }

  /** @param {Bar|undefined} bar */
  #select(bar) {
    this.#selected = bar?.id;
    if (bar && this.#panel.tab !== "bar") this.#panel.turn("bar");
    this.draw();
    this.#stage.reveal();
    if (bar) this.#live.textContent = spoken(bar);
  }

  /** @param {Bar|undefined} bar of any page that is here */
  #choose(bar) {
    if (bar && bar.page !== this.#index) this.open(bar.page);
    this.#select(bar);
  }

  /** @param {Finding} doubt */
  async #go(doubt) {
    this.#doubt = doubt;
    if (doubt.page && doubt.page !== this.#index) {
      await this.#model.need(doubt.page).catch((error) => this.#bus.emit("failed", error));
      this.open(doubt.page);
    }
    this.#selected = doubt.bar;
    this.draw();
    this.#stage.reveal(true);
    this.#panel.showCurrent();
    if (this.#panel.tab === "doubts") this.#panel.toAnswer();
    this.#live.textContent = doubt.text;
  }

  /** @param {number} n */
  #count(n) {
    const bar = this.#bar;
    if (bar) void this.#correct(restCount(bar, n));
  }

  /** A page is checked, or not any more; what is still asked on it is not passed over in silence. */
  async #verify() {
    const page = this.#index;
    const verified = this.#model.pageState(page) !== "verified";
    const open = verified ? this.#model.doubts.filter((d) => d.page === page) : [];
    if (open.length && !(await askChecked(page, open))) {
      this.#panel.open("doubts");
      return this.#go(open[0]);
    }
    void this.#correct({ kind: "verify-page", page, verified });
  }

  /** @param {number} step */
  #turn(step) {
    const all = this.#model.map.pages;
    const next = all[all.findIndex((p) => p.index === this.#index) + step];
    if (next) this.open(next.index);
  }

  /** @param {"left"|"right"|"up"|"down"} way */
  #arrow(way) {
    const next = neighbour(this.#model.barsOn(this.#index), this.#bar, way);
    if (next) this.#select(next);
    this.#stage.focus();
  }

  #nextDoubt() {
    const all = this.#model.doubts;
    if (all.length === 0) return;
    this.#panel.open("doubts");
    void this.#go(doubtAfter(all, this.#index, this.#doubt));
  }

  /**
   * @param {string} id of a field of the bar form
   * @param {string} [fold] the part of the form it is in
   */
  #field(id, fold) {
    if (!this.#bar) return;
    if (fold) this.#folds.add(fold);
    this.#panel.open("bar");
    const field = document.getElementById(id);
    field?.focus();
    // what is typed takes the place of what is there
    if (field instanceof HTMLInputElement) field.select();
  }

  /** @param {string} run what a key says of the chosen bar */
  #quick(run) {
    const bar = this.#bar;
    const line = bar ? this.#model.barsOn(bar.page).find((b) => b.system === bar.system) : undefined;
    const said = bar && quickly(run, bar, line?.id === bar.id);
    if (said) void this.#correct(said);
  }

  #paper() {
    const now = this.node.dataset.paper ?? "dim";
    const next = PAPER[(PAPER.indexOf(now) + 1) % PAPER.length];
    this.node.dataset.paper = next;
    remember("paper", next);
  }

  #leave() {
    this.#hand.let();
    if (this.#tools.active) this.#tools.leave();
    else this.#select(undefined);
  }

  /**
   * @param {string} run
   * @param {KeyboardEvent} [event]
   */
  #act(run, event) {
    if (!mayCorrect() && !LOOKING.has(run)) return void this.#looksOnly();
    const bar = this.#bar;
    const view = this.#stage.view;
    switch (run) {
      case "left": case "right": case "up": case "down": return this.#arrow(run);
      case "doubt": return this.#nextDoubt();
      case "repeat": return this.#repeat();
      case "also": return this.#also(bar);
      case "more": return this.#more(bar);
      case "page": return document.getElementById("page-at")?.focus();
      case "line": return this.#tools.line();
      case "mark": return this.#field("mark");
      case "mark-back": return void this.#shape.moveMark(-1);
      case "mark-on": return void this.#shape.moveMark(1);
      case "meter": return this.#field("meter");
      case "number": return this.#field("bar-number", "Bar number");
      case "start": return this.#field("number-label", "Words and musical numbers");
      case "add": return this.#tools.barline();
      case "middle": if (bar && this.#stage.adding) void this.#shape.cut(bar, centre(bar.outline)); return;
      case "nudge-left": return this.#shape.nudge(-3);
      case "nudge-right": return this.#shape.nudge(3);
      case "verify": return void this.#verify();
      case "undo": return void this.#model.undo();
      case "redo": return void this.#model.redo();
      case "history": return this.#panel.open("history");
      case "larger": return view.zoom(1.3);
      case "smaller": return view.zoom(1 / 1.3);
      case "fit": return view.fitOther();
      case "close": return this.#stage.reveal(true);
      case "pan": return view.pan(...panStep(event));
      case "page-before": return this.#turn(-1);
      case "page-after": return this.#turn(1);
      case "dim": return this.#paper();
      case "help": return showHelp();
      case "leave": return this.#leave();
      default: return this.#quick(run);
    }
  }
}
