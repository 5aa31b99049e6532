import { bookPath, call, isSilent, Kept, read, write } from "../core/api.js";
import { button, el, show } from "../core/dom.js";
import { icon } from "../core/icons.js";
import { CORRECTORS } from "../core/may.js";
import { recall, remember } from "../core/store.js";
import { complain, toast } from "../core/toast.js";
import { count, dayText, numberNo, when } from "../core/words.js";
import { gapText, verdictChip } from "../shared/turn.js";

/** @typedef {import("./names.js").BarNames} BarNames */
/** @typedef {import("../core/types.js").Turn} Turn */
/**
 * @template T
 * @typedef {import("../core/types.js").BeforeNow<T>} BeforeNow
 */

/** So many days on which something was changed are offered. */
const MOST_DAYS = 8;

/**
 * The days on which the show was changed, the latest first, each with how many steps were made on it.
 *
 * @param {{when: string, undone?: boolean}[]} steps
 * @returns {[string, number][]} the beginning of a day in ISO 8601
 */
function changedDays(steps) {
  /** @type {Map<string, number>} */
  const days = new Map();
  for (const step of steps) {
    const day = new Date(step.when);
    day.setHours(0, 0, 0, 0);
    if (!step.undone && !Number.isNaN(day.getTime())) days.set(day.toISOString(), (days.get(day.toISOString()) ?? 0) + 1);
  }
  return [...days].sort(([a], [b]) => b.localeCompare(a)).slice(0, MOST_DAYS);
}

/** @param {string} iso the same day where this player is, "2026-11-28" */
function localDay(iso) {
  const day = new Date(iso);
  return [day.getFullYear(), day.getMonth() + 1, day.getDate()].map((n) => String(n).padStart(2, "0")).join("-");
}

/** What became different for the player since a day or a rehearsal. */
export class SinceBox {
  #book;
  #names;
  #choice = el("select", { id: "since", "aria-label": "Since when" });
  #date = el("input", { id: "since-date", type: "date", "aria-label": "Since this day" });
  #body = el("div", { class: "since-body", "aria-live": "polite" });
  #asked = 0;
  /** @type {import("../core/types.js").Settings|undefined} */
  #settings;
  /** @type {[string, number][]} */
  #days = [];
  node;

  /**
   * @param {string} book
   * @param {() => BarNames|undefined} names
   */
  constructor(book, names) {
    this.#book = book;
    this.#names = names;
    this.#choice.addEventListener("change", () => this.#chosen());
    this.#date.addEventListener("change", () => this.#chosen());
    this.node = el(
      "section",
      { class: "since", "aria-label": "What changed" },
      el("div", { class: "row" }, el("label", { class: "inline-field" }, "Since ", this.#choice), this.#date, button("A rehearsal has just ended", () => void this.#rehearsed(), { class: "btn btn-quiet", id: "rehearsed", ...CORRECTORS }, icon("tick"))),
      this.#body,
    );
  }

  /** Asks anew what is different; what is shown stays until the answer is there. */
  async load() {
    const [settings, history] = await Promise.all([read(this.#book, "/settings"), read(this.#book, "/changes/history")]);
    this.#settings = settings;
    this.#days = changedDays(history.entries);
    this.#options();
    await this.#draw();
  }

  #options() {
    const before = this.#choice.value || recall("since", "");
    const rehearsed = this.#settings?.rehearsedAt;
    const options = [
      ...(rehearsed ? [["rehearsal", `the last rehearsal (${when(rehearsed)})`]] : []),
      ...this.#days.map(([day, steps]) => [day, `before the ${steps === 1 ? "change" : `${steps} changes`} of ${dayText(localDay(day))}`]),
      ["print", "the book as it is printed"],
      ["date", "another day …"],
    ];
    show(this.#choice, options.map(([value, text]) => el("option", { value, text })));
    this.#choice.value = options.some(([value]) => value === before) ? before : options[0][0];
    this.#date.hidden = this.#choice.value !== "date";
  }

  #chosen() {
    this.#date.hidden = this.#choice.value !== "date";
    if (this.#choice.value === "date" && !this.#date.value) this.#date.focus();
    remember("since", this.#choice.value);
    void this.#draw().catch(complain);
  }

  /** @returns {Date|undefined} */
  #moment() {
    const value = this.#choice.value;
    const rehearsed = this.#settings?.rehearsedAt;
    if (value === "rehearsal") return rehearsed ? new Date(rehearsed) : undefined;
    if (value === "print") return new Date(0);
    if (value !== "date") return new Date(value);
    return this.#date.value ? new Date(`${this.#date.value}T00:00`) : undefined;
  }

  async #revision() {
    return (await call("GET", bookPath(this.#book, "/settings"))).revision;
  }

  async #rehearsed() {
    try {
      /** @type {import("../core/api.js").Answered<import("../core/types.js").Settings>} */
      const { data } = await write(
        await this.#revision(),
        (match) => call("PUT", bookPath(this.#book, "/settings"), { body: { rehearsedAt: new Date().toISOString() }, match }),
        // whatever else was set meanwhile stays: only the time of the rehearsal is written
        () => this.#revision(),
      );
      this.#settings = data;
      await this.#now();
      toast("Kept. From now on you can ask what changed since this rehearsal.", { kind: "good" });
    } catch (error) {
      complain(error);
      if (error instanceof Kept) this.#settings = await read(this.#book, "/settings");
      if (error instanceof Kept) await this.#now();
    }
  }

  /** The last rehearsal is the one that was said just now. */
  async #now() {
    remember("since", "rehearsal");
    this.#choice.value = "";
    this.#options();
    await this.#draw();
  }

  async #draw() {
    const moment = this.#moment();
    if (!moment) return show(this.#body, el("p", { class: "soft", text: "Choose a day." }));
    const asked = ++this.#asked;
    const since = await read(this.#book, `/plan/since?moment=${encodeURIComponent(moment.toISOString())}`).catch((error) => (isSilent(error) ? undefined : Promise.reject(error)));
    if (!since) return show(this.#body, el("p", { class: "soft", text: "What is different since then is worked out when barmap answers." }));
    const { changes, diff } = since;
    const names = this.#names();
    if (asked !== this.#asked || !names) return;
    const parts = [
      part("The list", changes.map(stepLine)),
      part("Numbers", diff.numbers.map((n) => el("li", { class: "item" }, el("b", { text: n.label ? numberNo(n.label) : "The book" }), el("span", { text: n.text })))),
      part("Turns", diff.turns.map((t) => turnLine(t, names))),
      part("Long rests", diff.rests.map((r) => restLine(r, names))),
      part("To write now", diff.write.map((m) => markLine(m))),
      part("To rub out now", diff.erase.map((m) => markLine(m))),
    ].filter((p) => p !== null);
    show(this.#body, parts.length ? parts : el("p", { class: "soft", text: "Nothing is different for you." }));
  }
}

/**
 * @param {string} title
 * @param {HTMLElement[]} items
 */
function part(title, items) {
  return items.length ? el("div", { class: "since-part" }, el("h2", { text: title }), el("ul", { class: "plain" }, items)) : null;
}

/** @param {BeforeNow<string>} step a change that came, went or was put otherwise */
function stepLine({ before, now }) {
  return el(
    "li",
    { class: "item" },
    el("span", { class: "chip", text: before && now ? "Changed" : now ? "New" : "Gone" }),
    now ? el("b", { text: now }) : null,
    before ? el("span", { class: "soft gone", text: before }) : null,
  );
}

/**
 * @param {BeforeNow<Turn>} change
 * @param {BarNames} names
 */
function turnLine({ before, now }, names) {
  const turn = now ?? before;
  const facts = (/** @type {Turn} */ t) => [`after ${names.long(t.leaves)}`, gapText(t.gap)].join(" · ");
  return el(
    "li",
    { class: "item", "data-turn-change": now ? (before ? "other" : "new") : "gone" },
    el("b", { text: `Page ${turn.fromPage} to ${turn.toPage}${turn.pass > 1 ? `, pass ${turn.pass}` : ""}` }),
    now ? el("span", { class: "row" }, verdictChip(now.verdict), el("span", { text: facts(now) })) : el("span", { text: "no longer there" }),
    before ? el("span", { class: "soft small", text: `before: ${before.verdict === "none" ? "no time" : before.verdict}, ${facts(before)}` }) : el("span", { class: "soft small", text: "not there before" }),
    now?.advice?.[0]?.text ? el("span", { text: now.advice[0].text }) : null,
  );
}

/**
 * @param {BeforeNow<import("../core/types.js").LongRest>} change
 * @param {BarNames} names
 */
function restLine({ before, now }, names) {
  const rest = now ?? before;
  return el(
    "li",
    { class: "item" },
    el("b", { text: names.span(rest.first, rest.last) }),
    el("span", { text: now ? now.text : "no longer there" }),
    before ? el("span", { class: "soft small", text: `before: ${count(before.bars, "bar")}` }) : null,
  );
}

/** @param {import("../core/types.js").PencilMark} mark */
function markLine(mark) {
  return el("li", { class: "item" }, el("b", { text: mark.sign }), el("span", { class: "soft small", text: `Page ${mark.page}, line ${mark.system}, ${mark.number ? `${numberNo(mark.number)}, ` : ""}bar ${mark.where}` }));
}
