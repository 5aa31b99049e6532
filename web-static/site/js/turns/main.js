import { bookPath, call, isMissing, isStale, Kept, read, readRaw } from "../core/api.js";
import { EventBus } from "../core/bus.js";
import { button, el, need, show } from "../core/dom.js";
import { LiveBook } from "../core/live.js";
import { CORRECTORS, mayCorrect } from "../core/may.js";
import { whenDifferent } from "../core/outbox.js";
import { bookInAddress, deadEnd, noBook, shell } from "../core/shell.js";
import { Newest } from "../core/newest.js";
import { who } from "../core/store.js";
import { complain, forget, toast } from "../core/toast.js";
import { count } from "../core/words.js";
import { checkList } from "../shared/lists.js";
import { stepsOf } from "../shared/answer.js";
import { nothingYet } from "../shared/nothing.js";
import { TheirBars } from "../shared/theirs.js";
import { tempoAt, turnKey } from "../shared/turn.js";
import { versionSwitch } from "../shared/version.js";
import { planWaitsLine } from "../shared/waits.js";
import { aheadList } from "./ahead.js";
import { checkedText, sideQuestion } from "./head.js";
import { Marks, eraseList, instrumentList, markList, restList } from "./lists.js";
import { BarNames } from "./names.js";
import { noteList } from "./notes.js";
import { nightList } from "./night.js";
import { changeSettings } from "./settings.js";
import { SinceBox } from "./since.js";
import { sheetLinks } from "./sheets.js";
import { turnCard } from "./turn-card.js";

/** @typedef {import("../core/types.js").Plan} Plan */

const VIEWS = [
  ["turns", "Turns"],
  ["rests", "Rests"],
  ["instruments", "Changes of hands"],
  ["ahead", "Look ahead"],
  ["night", "The night"],
  ["since", "What changed"],
  ["pencil", "Marks to write"],
  ["erase", "Marks to erase"],
];

/** @type {Plan} */
const NO_PLAN = { numbers: [], turns: [], rests: [], instruments: [], pencil: [], findings: [] };

/** Every turn, rest and change of instrument, computed from the map and the show's changes. */
class TurnsRoom {
  #book = bookInAddress();
  /** @type {EventBus<import("../core/types.js").LiveEvents>} */
  #bus = new EventBus();
  #view = VIEWS.some(([id]) => id === location.hash.slice(1)) ? location.hash.slice(1) : "turns";
  #head = el("div");
  #tabs = el("nav", { class: "views", "aria-label": "What is shown" });
  #body = el("div", { class: "view" });
  /** @type {Plan} */
  #plan = NO_PLAN;
  /** @type {Plan} */
  #printed = NO_PLAN;
  /** @type {import("../core/types.js").Settings|undefined} */
  #settings;
  /** @type {import("../core/types.js").KeptChange[]} */
  #changes = [];
  #revision = "";
  #newest = new Newest();
  /** @type {{id: string, index: number}[]} */
  #pages = [];
  /** @type {BarNames|undefined} */
  #names;
  #marks = new Marks(this.#book);
  #since = new SinceBox(this.#book, () => this.#names);

  async start() {
    shell({ room: "turns", book: this.#book });
    if (!this.#book) return deadEnd("Which book?", "The address names no book.");
    show(need("main"), el("div", { class: "wide" }, this.#head, this.#tabs, this.#body, sheetLinks(this.#book), care()));
    show(this.#body, el("p", { class: "waiting", text: "Working it out …" }));
    for (const name of /** @type {const} */ (["live:map", "live:plan", "live:settings", "live:found"])) this.#bus.on(name, () => void this.#load().catch(() => {}));
    this.#bus.on("live:marks", () => void this.#marks.heard().then((different) => (different ? this.#draw() : undefined)).catch(() => {}));
    addEventListener("hashchange", () => {
      if (this.#settingsAsked()) return;
      this.#view = location.hash.slice(1) || "turns";
      this.#draw();
    });
    whenDifferent(() => void this.#load().catch(() => {}));
    try {
      await this.#load();
      this.#settingsAsked();
      new LiveBook(bookPath(this.#book, "/events"), this.#bus);
    } catch (error) {
      if (isMissing(error)) return noBook();
      complain(error);
      show(this.#body, el("p", { class: "waiting", text: "The turns can't be worked out right now. Reload to try again." }));
    }
  }

  async #load() {
    const id = this.#book;
    const mayShow = this.#newest.ask();
    const [book, map, plan, printed, settings, changes, align] = await Promise.all([
      read(id, ""), readRaw(id, "/map"), read(id, "/plan"), read(id, "/plan?without=changes"), read(id, "/settings"), call("GET", bookPath(id, "/changes")), read(id, "/align?only=changes").catch(() => undefined),
    ]);
    if (!mayShow()) return;
    shell({ room: "turns", book: this.#book, title: `${book.title}, ${book.part}` });
    this.#pages = book.pages;
    this.#names = new BarNames(map, new Map(book.pages.filter((p) => !p.score).map((p) => [p.index, p.id])), new TheirBars(align));
    await this.#marks.load(plan.pencil).catch(() => {});
    this.#plan = plan;
    this.#printed = printed;
    this.#settings = settings;
    this.#changes = changes.data.changes;
    this.#revision = changes.revision;
    this.#draw();
  }

  #draw() {
    const turns = this.#plan.turns;
    const left = new Set(this.#plan.findings.filter((f) => f.code === "version" || f.code === "over").map((f) => f.change));
    const changed = this.#changes.filter((c) => c.on !== false && !left.has(c.id)).length;
    const bad = turns.filter((t) => t.verdict === "none").length;
    show(
      this.#head,
      el(
        "div",
        { class: "row between" },
        el("h1", { text: "Turns and rests" }),
        button("You and your turns", () => void this.#ask(), { class: "btn", id: "turn-settings", ...CORRECTORS }),
      ),
      planWaitsLine(this.#plan.waits),
      turns.length === 0 ? null : el("p", { class: "soft", text: `${count(turns.length, "turn")}, ${bad ? `${bad} without time` : "none without time"}. ${changed ? `${count(changed, "change")} of the show counted.` : "As printed: no changes count."}` }),
      versionSwitch(this.#book, this.#settings, this.#changes, () => void this.#load().catch(complain)),
      checkedText(this.#plan.checked),
      this.#view === "turns" ? sideQuestion(this.#plan.findings, () => void this.#ask()) : null,
      this.#open(),
    );
    show(this.#tabs, VIEWS.map(([id, name]) => el("a", { href: `#${id}`, "aria-current": id === this.#view ? "true" : undefined, text: name })));
    this.#tabs.querySelector("[aria-current]")?.scrollIntoView({ block: "nearest", inline: "nearest" });
    show(this.#body, this.#content());
  }

  /** What is asked and what speaks against the plan; on a narrow page the answers are a tap away. */
  #open() {
    // how the pages lie is asked over the turns themselves
    const findings = this.#plan.findings.filter((f) => (f.code !== "first-page" || this.#view !== "turns") && f.severity !== "info");
    const list = checkList(findings.slice(0, 6), (bar) => this.#names?.long(bar) ?? "", mayCorrect() ? (finding, instead, says) => void this.#answer(finding, instead, says) : undefined);
    if (!list) return null;
    const asked = findings.filter((f) => f.question).length;
    const open = this.#head.querySelector("details")?.open ?? (innerWidth > 640 && this.#view === "turns");
    const what = [asked ? count(asked, "question") : "", findings.length > asked ? count(findings.length - asked, "warning") : ""].filter(Boolean).join(", ");
    return el("details", { class: "fold open-findings", open }, el("summary", { text: what }), list);
  }

  /**
   * @param {import("../core/types.js").PlanFinding} finding
   * @param {import("../core/types.js").KeptChange[]} instead
   * @param {string} says
   */
  async #answer(finding, instead, says) {
    const steps = stepsOf(this.#changes, finding.change, instead, who());
    const done = await this.#write(steps);
    const back = Array.from({ length: done }, () => /** @type {const} */ ({ method: "POST", path: "/changes/undo", body: {} }));
    if (done) toast(`Taken as: ${says}.`, { kind: "good", action: { label: "Take back", last: "changes", run: () => void this.#write(back) } });
  }

  /** @param {import("../shared/answer.js").Step[]} steps */
  async #write(steps) {
    let done = 0;
    forget("changes"); // a message about the step before can't take this one back
    try {
      for (const { method, path, body } of steps) {
        await this.#step({ method, path, body });
        done++;
      }
    } catch (error) {
      if (isStale(error)) toast("Someone else changed the list at the same time. It is fresh again; make your step once more if it is still needed.", { key: "stale" });
      else complain(error);
    }
    await this.#load().catch(complain);
    return done;
  }

  /** @param {import("../shared/answer.js").Step} step that is made, or waits to be sent */
  async #step({ method, path, body }) {
    try {
      /** @type {import("../core/api.js").Answered<import("../core/types.js").ChangeAnswer>} */
      const { data } = await call(method, bookPath(this.#book, path), { body, match: this.#revision });
      this.#revision = String(data.revision);
    } catch (error) {
      if (!(error instanceof Kept)) throw error;
      complain(error);
    }
  }

  #content() {
    const names = this.#names;
    if (!names) return el("p");
    if (names.none()) return nothingYet(this.#book, "Nothing to work out yet: add and read the pages first.");
    switch (this.#view) {
      case "rests": return restList(this.#book, this.#plan.rests, names);
      case "instruments": return instrumentList(this.#plan.instruments, names);
      case "ahead": return aheadList(this.#plan.lookAhead ?? [], names);
      case "night": return el("div", {}, nightList(this.#plan.runSheet ?? [], this.#plan.night, names.theirs, (n) => { const bar = names.first(n); return bar ? tempoAt(this.#book, bar) : null; }), noteList(this.#plan.notes ?? []));
      case "since":
        void this.#since.load().catch(complain);
        return this.#since.node;
      case "pencil": return markList(this.#plan.pencil, names, this.#marks);
      case "erase": return eraseList(names, this.#marks);
      default: return this.#turns(names);
    }
  }

  /** @param {BarNames} names */
  #turns(names) {
    const printed = new Map(this.#printed.turns.map((t) => [turnKey(t), t]));
    const turns = this.#plan.turns;
    if (turns.length === 0) {
      return el("p", { class: "waiting", text: "No page has to be turned." });
    }
    const now = new Set(turns.map(turnKey));
    const gone = this.#printed.turns.filter((t) => !now.has(turnKey(t)));
    return el(
      "div",
      {},
      el("ul", { class: "turns" }, turns.map((turn) => turnCard(turn, { book: this.#book, names, printed: printed.get(turnKey(turn)), changed: this.#changes.some((c) => c.on !== false) }))),
      gone.length
        ? el("p", { class: "soft", text: `No longer there with the changes: ${gone.map((t) => `page ${t.fromPage} to ${t.toPage}`).join(", ")}.` })
        : null,
    );
  }

  /** Opens the settings where the address asks for one of their fields. */
  #settingsAsked() {
    const field = /^#settings-(\w+)$/.exec(location.hash)?.[1];
    if (!field) return false;
    history.replaceState(null, "", `${location.pathname}${location.search}#${this.#view}`);
    void this.#ask(field);
    return true;
  }

  /** @param {string} at the field that is asked for */
  async #ask(at = "") {
    try {
      if (this.#settings && await changeSettings(this.#book, this.#pages, at)) await this.#load();
    } catch (error) {
      complain(error);
    }
  }
}

function care() {
  return el(
    "aside",
    { class: "care", "aria-label": "Care" },
    el("p", { text: "Write light, little and in pencil, and erase it before the book goes back. Cuttings and fold-outs of a hired book are for the hire agreement and local rules to allow; what the director shows counts, not this plan." }),
  );
}

void new TurnsRoom().start();
