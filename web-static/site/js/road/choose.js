import { ask, field } from "../core/dialog.js";
import { button, el, show } from "../core/dom.js";
import { numberName } from "../core/words.js";
import { firstAddress, lastAddress, sentence } from "./address.js";

/** @typedef {import("../core/types.js").RoadBar} RoadBar */
/** @typedef {import("../core/types.js").RoadNumber} RoadNumber */
/** @typedef {import("../core/types.js").Change} Change */

const REMINDERS = ["watch", "cue", "push", "pull", "bow", "pizz", "mute", "extension", "missed", "text"];

/**
 * @param {string} name
 * @param {[string, string][]} options
 */
function select(name, options) {
  return el("select", { name }, options.map(([value, text]) => el("option", { value, text })));
}

/** What more must be known for each kind of change. */
const MORE = /** @type {Record<string, {title: string, fields: () => HTMLElement[]}>} */ ({
  vamp: { title: "Vamp", fields: () => [field("It is left", select("leave", [["end-of-pass", "at the end of a pass"], ["any-time", "at any time"]]))] },
  play: { title: "Play several times", fields: () => [field("Times in all", el("input", { name: "times", type: "number", min: 2, max: 99, value: "2", required: true }))] },
  tempo: {
    title: "Tempo",
    fields: () => [
      field("Beat", select("beat", [["1/4", "quarter"], ["3/8", "dotted quarter"], ["1/2", "half"], ["1/8", "eighth"]])),
      field("Beats a minute", el("input", { name: "perMinute", type: "number", min: 20, max: 400, value: "120", required: true })),
    ],
  },
  beats: { title: "How it is beaten", fields: () => [field("Beats in a bar", el("input", { name: "beats", type: "number", min: 1, max: 12, value: "2", required: true }))] },
  instrument: { title: "Instrument", fields: () => [field("From here on", el("input", { name: "to", maxlength: 80, required: true }))] },
  remind: {
    title: "Reminder",
    fields: () => [field("What", select("what", REMINDERS.map((r) => [r, r]))), field("In your words", el("input", { name: "note", maxlength: 120 }))],
  },
  cut: { title: "Cut", fields: () => [] },
  safety: { title: "Safety", fields: () => [] },
});

const NUMERIC = ["times", "perMinute", "beats"];

/** The bar under the road map that offers what can be done with the chosen bars. */
export class ChooseBar {
  /** @type {RoadNumber|undefined} */
  #number;
  /** @type {RoadBar|undefined} */
  #first;
  /** @type {RoadBar|undefined} */
  #last;
  #bus;
  node = el("section", { class: "choose", hidden: true, "aria-label": "The chosen bars", "aria-live": "polite" });

  /** @param {import("../core/bus.js").EventBus} bus gets `chosen`, and `propose` with a change */
  constructor(bus) {
    this.#bus = bus;
  }

  /**
   * @param {RoadNumber} number
   * @param {RoadBar} bar
   */
  pick(number, bar) {
    const place = (/** @type {RoadBar|undefined} */ b) => number.bars.findIndex((x) => x.id === b?.id);
    if (this.#number?.label !== number.label || !this.#first || this.#last) {
      this.#number = number;
      this.#first = bar;
      this.#last = undefined;
    } else if (place(bar) < place(this.#first)) {
      this.#last = this.#first;
      this.#first = bar;
    } else {
      this.#last = bar;
    }
    this.#draw();
    this.#bus.emit("chosen");
  }

  /** @param {RoadNumber} number the whole of it is chosen */
  pickNumber(number) {
    this.#number = number;
    this.#first = this.#last = undefined;
    this.#draw();
    this.#bus.emit("chosen");
  }

  clear() {
    this.#first = this.#last = this.#number = undefined;
    this.#draw();
    this.#bus.emit("chosen");
  }

  /**
   * @param {RoadNumber} number
   * @param {RoadBar} bar
   */
  stateOf(number, bar) {
    if (number.label !== this.#number?.label) return "";
    if (!this.#first) return "chosen";
    const place = (/** @type {RoadBar|undefined} */ b) => number.bars.findIndex((x) => x.id === b?.id);
    const from = place(this.#first);
    const to = this.#last ? place(this.#last) : from;
    const here = place(bar);
    return here >= from && here <= to ? "chosen" : "";
  }

  #draw() {
    const first = this.#first;
    const number = this.#number;
    this.node.hidden = !number;
    if (!number) return show(this.node);
    if (!first) return this.#drawWhole(number);
    const last = this.#last ?? first;
    const from = firstAddress(first);
    const to = lastAddress(last);
    const propose = (/** @type {string} */ kind) => void this.#propose(kind, number.label, from, to);
    const kinds = /** @type {[string, string][]} */ ([["cut", "Cut these"], ["vamp", "Vamp"], ["safety", "Safety"], ["play", "Play n times"], ["tempo", "Tempo"], ["beats", "In two, in four"], ["instrument", "Instrument"], ["remind", "Reminder"]]);
    show(
      this.node,
      el("div", { class: "row between" },
        el("p", { class: "choose-text" }, el("b", { text: `${numberName(number)}: ${from === to ? `bar ${from}` : `bars ${from} to ${to}`}` }), this.#last ? null : el("span", { class: "soft", text: "  Choose a second bar for more than one." })),
        button("Let go", () => this.clear(), { class: "btn btn-quiet" }),
      ),
      el("div", { class: "choice" }, kinds.map(([kind, text]) => button(text, () => propose(kind), { class: kind === "cut" ? "btn btn-main" : "btn", "data-kind": kind }))),
    );
  }

  /** @param {RoadNumber} number */
  #drawWhole(number) {
    const propose = (/** @type {string} */ kind) => {
      const change = { number: number.label, kind };
      this.#bus.emit("propose", { change, text: sentence(change) });
    };
    show(
      this.node,
      el("div", { class: "row between" }, el("p", { class: "choose-text" }, el("b", { text: `${numberName(number)}, the whole of it` })), button("Let go", () => this.clear(), { class: "btn btn-quiet" })),
      el(
        "div",
        { class: "choice" },
        button("It is cut", () => propose("cut-number"), { class: "btn btn-main", "data-kind": "cut-number" }),
        button("Tacet: I don't play in it", () => propose("tacet"), { class: "btn", "data-kind": "tacet" }),
      ),
    );
  }

  /**
   * @param {string} kind
   * @param {string} number
   * @param {string} first
   * @param {string} last
   */
  async #propose(kind, number, first, last) {
    const more = MORE[kind];
    /** @type {Change} */
    const change = { number, kind, first };
    if (!["tempo", "instrument", "remind"].includes(kind)) change.last = last;
    const fields = more.fields();
    if (fields.length) {
      const answer = await ask(`${more.title}: ${number ? `No. ${number}, ` : ""}${first}${change.last && last !== first ? ` to ${last}` : ""}`, fields, { yes: "Go on" });
      if (!answer) return;
      for (const [key, value] of answer) {
        if (value !== "") change[key] = NUMERIC.includes(key) ? Number(value) : String(value);
      }
    }
    this.#bus.emit("propose", { change, text: sentence(change) });
  }
}
