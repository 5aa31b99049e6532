import { bookPath, isMissing, read } from "../core/api.js";
import { EventBus } from "../core/bus.js";
import { ask } from "../core/dialog.js";
import { button, el, need, show } from "../core/dom.js";
import { LiveBook } from "../core/live.js";
import { CORRECTORS, LOOKS, mayCorrect } from "../core/may.js";
import { bookInAddress, deadEnd, noBook, retitle, shell } from "../core/shell.js";
import { complain, toast } from "../core/toast.js";
import { barName, count, duration, knownText, numberName, numberNo } from "../core/words.js";
import { chooseBoth } from "../shared/both.js";
import { checkList } from "../shared/lists.js";
import { nothingYet } from "../shared/nothing.js";
import { TheirBars } from "../shared/theirs.js";
import { versionSwitch, versionsOf } from "../shared/version.js";
import { planWaitsLine } from "../shared/waits.js";
import { changeList } from "./changes.js";
import { ChooseBar } from "./choose.js";
import { askEdit, patchOf } from "./edit.js";
import { foldAt } from "./folds.js";
import { drawForm } from "./form.js";
import { holdFields, holds } from "./holding.js";
import { sentence } from "./kinds.js";
import { flipSides, sayLeaf } from "./lying.js";
import { KeptNodes } from "./kept-nodes.js";
import { RoadModel } from "./model.js";
import { openingStrip } from "./openings.js";
import { TurnStrip } from "./turns.js";
import { WordBox } from "./words.js";

/** @typedef {import("../core/types.js").Change} Change */
/** @typedef {import("../core/types.js").KeptChange} KeptChange */
/** @typedef {import("../core/types.js").RoadNumber} RoadNumber */

/** @typedef {{facts: string, marks: import("../core/types.js").RoadMark[], folds: {bar: string, fold: import("./lay.js").Fold}[], chosen: string[]}} Shown of a number, besides what the book says of it */

/** So many questions, and so many remarks, are shown at a time. */
const MOST = 8;

/** About how high the head of a number is: while it is far from view its form is not laid out. */
const HEAD = 52;

/** What only says in which shows a change counts speaks for itself. */
const HOLDING = ["version", "early", "over", "replaced"];

/** @param {number} asked */
function more(asked) {
  return asked > MOST ? el("p", { class: "soft small", text: `${asked - MOST} more come when some of these are answered.` }) : null;
}

/** The form of every number, and the show's changes. */
class RoadRoom {
  #book = bookInAddress();
  /** @type {EventBus<import("../core/types.js").RoadEvents>} */
  #bus = new EventBus();
  #model = new RoadModel(this.#book, this.#bus);
  #choose = new ChooseBar(this.#bus);
  #words = new WordBox(this.#model);
  #forms = el("div", { class: "forms" });
  #lies = el("div");
  #show = el("div", { class: "head-marks" });
  #changes = el("section", { class: "card", "aria-label": "Changes" });
  #asked = el("section", { class: "card", id: "asked", "aria-label": "Questions", hidden: true });
  #version = el("div");
  #waits = el("div", { "aria-live": "polite" });
  #turns = new TurnStrip(this.#book, (id) => this.#nameOf(id), (id) => this.#placeOf(id)?.number.bars[0]?.id);
  /** Where the bars stand, by their ids. @type {{of: RoadNumber[], places: Map<string, {number: RoadNumber, bar: import("../core/types.js").RoadBar}>}} */
  #found = { of: [], places: new Map() };
  #width = 0;
  #kept = new KeptNodes(this.#forms);

  async start() {
    shell({ room: "road", book: this.#book });
    if (!this.#book) return deadEnd("Which book?", "The address names no book.");
    show(
      need("main"),
      el("div", { class: "road" }, el("div", { class: "road-main" }, el("h1", { text: "Road map" }), this.#waits, this.#lies, this.#show, this.#forms), el("div", { class: "road-side" }, this.#version, el("div", CORRECTORS, this.#words.node), this.#turns.node, this.#asked, this.#changes)),
      this.#choose.node,
    );
    show(this.#forms, el("p", { class: "waiting", text: "Drawing the form …" }));
    this.#listen();
    try {
      const book = await read(this.#book, "");
      shell({ room: "road", book: this.#book, title: `${book.title}, ${book.part}` });
      await this.#model.load();
      this.#choose.pickBar(new URLSearchParams(location.search).get("bar") ?? "");
    } catch (error) {
      if (isMissing(error)) return noBook();
      complain(error);
      show(this.#forms, el("p", { class: "waiting", text: "The road map can't be drawn right now. Reload to try again." }));
      return;
    }
    new LiveBook(bookPath(this.#book, "/events"), this.#bus);
  }

  #listen() {
    const bus = this.#bus;
    bus.on("road", () => this.#draw());
    bus.on("chosen", () => this.#drawForms());
    bus.on("propose", ({ change, text }) => void this.#propose(change, text));
    bus.on("edit", (id) => void this.#edit(this.#model.changes.find((c) => c.id === id)));
    bus.on("stale", (clash) => {
      if (clash) void chooseBoth(clash).catch(complain);
      else toast("Someone else changed the list at the same time. It is fresh again; make your step once more if it is still needed.", { key: "stale" });
    });
    bus.on("listed", () => this.#drawList());
    bus.on("live:plan", (event) => void this.#model.heard(event).catch(() => {}));
    for (const name of /** @type {const} */ (["live:map", "live:settings", "live:found"])) bus.on(name, () => void this.#model.load().catch(() => {}));
    new ResizeObserver(() => {
      if (Math.abs(this.#forms.clientWidth - this.#width) > 4 && this.#model.numbers.length) this.#drawForms();
    }).observe(this.#forms);
    addEventListener("keydown", (event) => {
      if (event.key === "Escape" && !document.querySelector("dialog[open]")) this.#choose.clear();
    });
  }

  #draw() {
    retitle(this.#model.title);
    this.#drawTurns();
    this.#drawForms();
    this.#drawBook();
    show(this.#version, versionSwitch(this.#book, this.#model.settings, this.#model.changes, () => void this.#model.load().catch(complain)));
    show(this.#waits, planWaitsLine(this.#model.plan?.waits));
    const findings = this.#model.plan?.findings ?? [];
    const asked = findings.filter((f) => f.question);
    const name = (/** @type {string} */ bar) => this.#nameOf(bar);
    this.#asked.hidden = asked.length === 0;
    show(this.#asked, el("h2", { text: asked.length === 1 ? "A question" : `${asked.length} questions` }), checkList(asked.slice(0, MOST), name, mayCorrect() ? (...answer) => void this.#answer(...answer) : undefined), more(asked.length));
    this.#drawList();
  }

  /** The list of changes, with what is known of them beside it. */
  #drawList() {
    this.#words.beside(this.#model.beside, this.#model.part);
    this.#choose.theirs = new TheirBars(this.#model.beside);
    const findings = this.#model.plan?.findings ?? [];
    show(
      this.#changes,
      changeList(this.#model.changes, this.#model.night(), this.#model.history, this.#model.beside, {
        toggle: (change, on) => void this.#model.switch(change, on).catch(complain),
        edit: (change) => void this.#edit(change),
        remove: (change) => void this.#remove(change),
        undo: () => void this.#model.undo().catch(complain),
        redo: () => void this.#model.redo().catch(complain),
      }),
      checkList(findings.filter((f) => !f.question).slice(0, MOST), (bar) => this.#nameOf(bar)),
    );
  }

  /** The book as it lies, and what is changed for the whole show. */
  #drawBook() {
    const open = this.#lies.querySelector("details")?.open;
    const strip = openingStrip(this.#model.plan?.pages ?? [], {
      book: this.#model.pages, numbers: this.#model.numbers, firstPage: this.#model.settings?.firstPage,
      flip: () => void flipSides(this.#book, this.#model),
      leaf: (page) => void (mayCorrect() ? sayLeaf(this.#book, this.#model, page) : toast(`Page ${page.page}. ${LOOKS}`, { key: "looks" })),
    });
    if (strip && open !== undefined) strip.open = open;
    show(this.#lies, strip);
    const labels = new Set(this.#model.numbers.map((n) => n.label));
    show(this.#show, this.#marksAt((m) => m.place === "show" || (m.place === "lost" && !labels.has(m.number))));
  }

  /** @param {(mark: import("../core/types.js").RoadMark) => boolean} which marks that stand at no bar */
  #marksAt(which) {
    return this.#model.marks.filter(which).map((m) =>
      button(m.place === "lost" ? `not in the book: ${m.says}` : m.sign, () => this.#bus.emit("edit", m.change), { class: `btn head-mark${m.place === "lost" ? " lost" : ""}${m.waits ? " waits" : ""}`, "data-said": m.change, title: m.says, "aria-label": `Edit: ${m.says}` }),
    );
  }

  #drawTurns() {
    this.#turns.draw(this.#model.plan?.turns ?? [], `/turns.html?b=${encodeURIComponent(this.#book)}`);
  }

  /** @param {string} id of a bar */
  #placeOf(id) {
    const { numbers } = this.#model;
    if (this.#found.of !== numbers) this.#found = { of: numbers, places: new Map(numbers.flatMap((number) => number.bars.map((bar) => [bar.id, { number, bar }]))) };
    return this.#found.places.get(id);
  }

  /** @param {string} id */
  #nameOf(id) {
    const place = this.#placeOf(id);
    if (!place) return "";
    const { number, bar } = place;
    return `${number.label ? `${numberNo(number.label)}, ` : ""}${bar.count > 1 ? "bars" : "bar"} ${barName(bar)}`;
  }

  #drawForms() {
    const numbers = this.#choose.numbers = this.#model.night();
    need(".road").classList.toggle("road-new", numbers.length === 0 && this.#model.changes.length === 0);
    if (numbers.length === 0) {
      show(this.#forms, nothingYet(this.#book, "No musical numbers yet. Read some pages, and say at the desk where each number starts."));
      return;
    }
    this.#width = this.#forms.clientWidth;
    const focused = document.activeElement?.getAttribute("data-bar");
    /** @type {import("../core/types.js").RoadBar|undefined} */
    let last;
    this.#kept.show(numbers.map((number) => {
      const shown = this.#shownOf(number, last);
      last = number.bars[number.bars.length - 1] ?? last;
      return { of: [number, this.#width, ...Object.values(shown)], draw: () => this.#number(number, shown) };
    }));
    if (focused) /** @type {SVGElement|null} */ (this.#forms.querySelector(`[data-bar="${CSS.escape(focused)}"]`))?.focus();
  }

  /** @param {RoadNumber} number */
  #facts(number) {
    const planned = this.#model.plan?.numbers.find((n) => n.label === number.label);
    const played = planned?.played;
    const state = planned?.state;
    return state === "cut"
      ? "cut"
      : number.tacet || state === "tacet" || number.bars.length === 0
      ? "tacet"
      : [
          count(planned?.written ?? number.bars.reduce((n, b) => n + b.count, 0), "bar") + " written",
          played ? `${played.bars} played` : "",
          played ? duration(played.seconds) : "",
          played?.plus?.length ? `plus ${played.plus.join(", ")}` : "",
          knownText(planned?.known),
        ].filter(Boolean).join(" · ");
  }

  /**
   * What is shown of a number besides what the book says of it.
   *
   * @param {RoadNumber} number
   * @param {import("../core/types.js").RoadBar} [last] of the number before
   * @returns {Shown}
   */
  #shownOf(number, last) {
    const { plan, marks } = this.#model;
    return {
      facts: this.#facts(number),
      marks: marks.filter((m) => m.number === number.label),
      folds: number.bars.flatMap((bar, i) => {
        const fold = foldAt(bar, number.bars[i - 1] ?? last, plan?.pages ?? [], plan?.turns ?? []);
        return fold ? [{ bar: bar.id, fold }] : [];
      }),
      chosen: number.bars.map((bar) => this.#choose.stateOf(number, bar)),
    };
  }

  /**
   * @param {RoadNumber} number
   * @param {Shown} shown
   */
  #number(number, { facts, marks, folds, chosen }) {
    const states = new Map(number.bars.map((bar, i) => [bar.id, chosen[i]]));
    const foldOf = new Map(folds.map(({ bar, fold }) => [bar, fold]));
    const form = number.bars.length
      ? drawForm(number, Math.max(280, this.#width), {
          stateOf: (bar) => states.get(bar.id) ?? "",
          pick: (bar) => this.#choose.pick(number, bar),
          marks,
          fold: (bar) => foldOf.get(bar.id),
          edit: (change) => this.#bus.emit("edit", change),
        })
      : null;
    const section = el(
      "section",
      { class: "number", "data-number": number.label },
      el(
        "div",
        { class: "number-head" },
        el("h2", {}, numberName(number), el("span", { class: "soft small", text: `  ${facts}` })),
        el(
          "div",
          { class: "number-tools" },
          button("Whole number", () => this.#choose.pickNumber(number), { class: "btn btn-quiet", "aria-label": `The whole of ${numberName(number)}` }),
          el("a", { class: "btn btn-quiet", href: bookPath(this.#book, `/sheets/stand.pdf?number=${encodeURIComponent(number.label)}`), target: "_blank", rel: "noopener", "aria-label": `Stand sheet of ${numberName(number)}`, text: "Sheet" }),
        ),
      ),
      el("div", { class: "head-marks" }, this.#marksAt((m) => m.number === number.label && (m.place === "head" || m.place === "lost"))),
      form,
    );
    if (form) section.style.containIntrinsicBlockSize = `auto ${Number(form.getAttribute("height")) + HEAD}px`;
    return section;
  }

  /**
   * Shows a change with its consequences before it counts.
   *
   * @param {Change} change
   * @param {string} text
   */
  async #propose(change, text) {
    /** @type {import("../core/types.js").PlanFinding[]} */
    let checks = [];
    try {
      checks = await this.#model.checks(change);
    } catch (error) {
      return complain(error);
    }
    const sure = await ask(
      "Is this right?",
      [el("p", {}, el("strong", { text })), checkList(checks) ?? el("p", { class: "soft", text: "Nothing speaks against it." }), holdFields(versionsOf(this.#model.changes, this.#model.settings))],
      { yes: "Yes, make it so" },
    );
    if (!sure) return;
    // now, not when the answer is there: by then other bars may be chosen for the next change
    this.#choose.clear();
    try {
      const made = await this.#model.add({ ...change, ...holds(sure) });
      if (!made) return;
      toast(made === "waits" ? `${text}. It waits to be sent.` : text, { kind: "good", action: { label: "Take back", last: "changes", run: () => void this.#model.undo().catch(complain) } });
    } catch (error) {
      complain(error);
    }
  }

  /**
   * @param {import("../core/types.js").PlanFinding} finding
   * @param {import("../core/types.js").KeptChange[]} instead
   * @param {string} says
   */
  async #answer(finding, instead, says) {
    try {
      const steps = await this.#model.answer(finding.change, instead);
      if (steps === 0) return;
      toast(`Taken as: ${says}.`, { kind: "good", action: { label: "Take back", last: "changes", run: () => void this.#back(steps) } });
    } catch (error) {
      complain(error);
    }
  }

  /** @param {number} steps */
  async #back(steps) {
    try {
      for (let i = 0; i < steps; i++) await this.#model.undo();
    } catch (error) {
      complain(error);
    }
  }

  /**
   * Says a change otherwise, in one step.
   *
   * @param {KeptChange|undefined} change
   */
  async #edit(change) {
    if (!change) return;
    if (!mayCorrect()) return void toast(`${sentence(change)}.`, { key: "looks" });
    const answer = await askEdit(change, versionsOf(this.#model.changes, this.#model.settings), this.#model.night(), this.#model.words(change));
    if (!answer) return;
    try {
      const next = answer.words ? await this.#model.inWords(answer.next, answer.words) : answer.next;
      const patch = patchOf(change, next);
      if (!patch) return;
      const against = (await this.#model.checks(next, change.id)).filter((c) => c.severity !== "info" && !HOLDING.includes(c.code));
      if (against.length && !(await ask("Is this right?", [el("p", {}, el("strong", { text: sentence(next) })), ...[checkList(against)].filter((n) => n !== null)], { yes: "Yes, keep it so" }))) return;
      if (await this.#model.edit(change, patch)) {
        toast(`Kept: ${sentence(next)}.`, { kind: "good", action: { label: "Take back", last: "changes", run: () => void this.#model.undo().catch(complain) } });
      }
    } catch (error) {
      complain(error);
    }
  }

  /** @param {KeptChange} change */
  async #remove(change) {
    try {
      if (await this.#model.remove(change)) {
        toast("The change is deleted.", { action: { label: "Take back", last: "changes", run: () => void this.#model.undo().catch(complain) } });
      }
    } catch (error) {
      complain(error);
    }
  }
}

void new RoadRoom().start();
