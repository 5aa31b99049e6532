import { bookPath, call, Kept, read } from "../core/api.js";
import { el, show } from "../core/dom.js";
import { icon } from "../core/icons.js";
import { mayCorrect } from "../core/may.js";
import { nothingWaits } from "../core/outbox.js";
import { recall, remember } from "../core/store.js";
import { complain } from "../core/toast.js";
import { count, duration, inHand, plain } from "../core/words.js";
import { tempoAt } from "../shared/turn.js";
import { waitsSign } from "../shared/waits.js";
import { unsureText } from "./head.js";

/** @typedef {import("./names.js").BarNames} BarNames */
/** @typedef {import("../core/types.js").PencilMark} PencilMark */

/**
 * @param {string} book
 * @param {import("../core/types.js").LongRest[]} rests
 * @param {BarNames} names
 */
export function restList(book, rests, names) {
  if (rests.length === 0) return el("p", { class: "soft", text: "No long rests." });
  return el(
    "ul",
    { class: "plain" },
    rests.map((rest) =>
      el(
        "li",
        { class: "item" },
        el("b", { text: `${count(rest.bars, "bar")} of rest` }),
        el("span", { class: "soft", text: [names.span(rest.first, rest.last), rest.page ? `page ${rest.page}` : "", duration(rest.seconds)].filter(Boolean).join(" · ") }),
        rest.text ? el("span", { text: rest.text }) : null,
        unsureText(rest.unsure),
        rest.landmarks.length
          ? el("ul", { class: "landmarks" }, rest.landmarks.map((l) => el("li", {}, el("b", { text: l.after ? `after ${count(l.after, "bar")}` : "as it begins" }), `: ${l.what}`)))
          : null,
        rest.seconds === undefined ? tempoAt(book, names.begins(rest.first) ?? rest.first) : null,
        el("a", { class: "btn", href: `/practice.html?b=${encodeURIComponent(book)}#${encodeURIComponent(rest.first)}`, text: "Count it" }),
      ),
    ),
  );
}

/**
 * @param {import("../core/types.js").InstrumentChange[]} list
 * @param {BarNames} names
 */
export function instrumentList(list, names) {
  if (list.length === 0) return el("p", { class: "soft", text: "No change of instrument." });
  return el(
    "ul",
    { class: "plain" },
    list.map((change) => {
      const early = change.seconds === undefined && change.verdict === "time" && !change.because;
      const time = early ? "before the number" : change.seconds === undefined ? `time not known${change.because ? `: ${change.because}` : ""}` : `${change.seconds < 0.05 ? "no time" : duration(change.seconds)} to change${change.needed ? `, ${change.needed} s needed` : ""}`;
      return el(
        "li",
        { class: "item" },
        el("b", { text: (change.from ? [change.from, change.to] : [change.to]).map(inHand).join(" → ") }),
        el("span", { class: "soft", text: names.long(change.at) }),
        el("span", {}, icon(change.verdict === "time" ? "tick" : change.verdict === "unknown" ? "doubt" : "warn"), ` ${time}`),
        change.text ? el("span", { class: "soft small", text: change.text }) : null,
        unsureText(change.unsure),
      );
    }),
  );
}

/**
 * The marks to write, by page, each with a tick: it stands in the book then, until it is ticked as erased.
 *
 * @param {PencilMark[]} marks of the plan
 * @param {BarNames} names
 * @param {Marks} kept
 */
export function markList(marks, names, kept) {
  const has = (/** @type {PencilMark} */ mark) => kept.written.some((w) => markKey(w) === markKey(mark));
  return ticks(marks, names, { checked: has, word: "written", none: "Nothing to write.", tick: (mark, on) => kept.tick(mark, on), count: () => marks.filter(has).length, waits: (mark) => kept.waits(mark) });
}

/**
 * The marks to erase: what was ticked as written, also for changes that don't count any more.
 *
 * @param {BarNames} names
 * @param {Marks} kept
 */
export function eraseList(names, kept) {
  const marks = [...kept.written].sort((a, b) => a.page - b.page || names.place(a.bar) - names.place(b.bar));
  const gone = new Set();
  const tick = (/** @type {PencilMark} */ mark, /** @type {boolean} */ on) => {
    if (on) gone.add(markKey(mark));
    else gone.delete(markKey(mark));
    return kept.tick(mark, !on);
  };
  return ticks(marks, names, { checked: () => false, word: "erased", none: "Nothing was ticked as written.", tick, count: () => gone.size, waits: (mark) => kept.waits(mark) });
}

/**
 * @param {PencilMark[]} marks
 * @param {BarNames} names
 * @param {{checked: (mark: PencilMark) => boolean, word: string, none: string, tick: (mark: PencilMark, on: boolean) => Promise<boolean>, count: () => number, waits: (mark: PencilMark) => boolean}} how
 */
function ticks(marks, names, { checked, word, none, tick, count: ticked, waits }) {
  if (marks.length === 0) return el("p", { class: "soft", text: none });
  const note = el("p", { class: "soft", "aria-live": "polite" });
  const say = () => (note.textContent = `${ticked()} of ${marks.length} ${word}`);
  const items = marks.map((mark) => {
    const box = el("input", { type: "checkbox", checked: checked(mark), disabled: !mayCorrect() });
    const sign = el("span", {}, waits(mark) ? waitsSign() : null);
    box.addEventListener("change", () => {
      void tick(mark, box.checked).then((made) => {
        if (!made) box.checked = !box.checked;
        show(sign, waits(mark) ? waitsSign() : null);
        say();
      });
    });
    const where = [`Page ${mark.page}`, mark.system ? `line ${mark.system}` : "", names.long(mark.bar)].filter(Boolean).join(", ");
    return el("li", { class: "item" }, el("label", { class: "tick-line" }, box, el("span", {}, el("b", { text: mark.sign ?? plain(mark.mark) }), el("span", { class: "soft small block", text: where }), mark.unsure?.length ? el("span", { class: "soft small block", text: `Not checked: ${mark.unsure.join("; ")}` }) : null, sign)));
  });
  say();
  return el("div", {}, note, el("ul", { class: "plain" }, items));
}

/** @param {PencilMark} mark */
function markKey(mark) {
  return [mark.bar, mark.mark].join("/");
}

/** The marks that stand in the book in pencil, as the service keeps them. */
export class Marks {
  #book;
  /** @type {PencilMark[]} */
  written = [];
  /** Those whose tick couldn't be sent from this window. @type {Set<string>} */
  #ticked = new Set();

  /** @param {string} book */
  constructor(book) {
    this.#book = book;
  }

  /** @param {PencilMark} mark whether its tick waits to be sent */
  waits(mark) {
    return this.#ticked.has(markKey(mark)) || this.written.some((w) => w.waits === true && markKey(w) === markKey(mark));
  }

  /** Fetches them; ticks that only this browser had so far go along. @param {PencilMark[]} planned */
  async load(planned) {
    this.written = (await read(this.#book, "/marks")).written;
    if (nothingWaits()) this.#ticked.clear();
    const key = `pencil.${this.#book}`;
    const old = new Set(recall(key, /** @type {string[]} */ ([])));
    if (old.size === 0 || !mayCorrect()) return;
    for (const mark of planned) if (old.has([mark.page, mark.bar, mark.mark].join("/"))) await this.tick(mark, true);
    remember(key, []);
  }

  /** The last tick; the event that tells of it may come before its answer. @type {Promise<unknown>} */
  #ticking = Promise.resolve();

  /** @returns {Promise<boolean>} whether another window ticked something */
  async heard() {
    await this.#ticking;
    const keys = (/** @type {PencilMark[]} */ marks) => marks.map(markKey).sort().join(" ");
    const { written } = await read(this.#book, "/marks");
    if (keys(written) === keys(this.written)) return false;
    this.written = written;
    return true;
  }

  /**
   * @param {PencilMark} mark
   * @param {boolean} written or not any more
   * @returns {Promise<boolean>} whether that is kept
   */
  tick(mark, written) {
    const kept = this.#tick(mark, written);
    this.#ticking = kept;
    return kept;
  }

  /**
   * @param {PencilMark} mark
   * @param {boolean} written
   */
  async #tick(mark, written) {
    try {
      /** @type {import("../core/api.js").Answered<{written: PencilMark[]}>} */
      const { data } = await call("POST", bookPath(this.#book, "/marks"), { body: { mark, written } });
      this.written = data.written;
      return true;
    } catch (error) {
      complain(error);
      if (!(error instanceof Kept)) return false;
      this.#ticked.add(markKey(mark));
      this.written = (await read(this.#book, "/marks")).written;
      return true;
    }
  }
}
