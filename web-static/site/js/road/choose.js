import { ask } from "../core/dialog.js";
import { button, el, show } from "../core/dom.js";
import { CORRECTORS, LOOKS, mayCorrect } from "../core/may.js";
import { numberName, numberNo } from "../core/words.js";
import { TheirBars } from "../shared/theirs.js";
import { firstAddress, lastAddress } from "./address.js";
import { changeOf, changeOfNumber, orderOf } from "./change-of.js";
import { select } from "./kind-fields.js";
import { KINDS, OF_NUMBER, sentence } from "./kinds.js";

/** @typedef {import("../core/types.js").RoadBar} RoadBar */
/** @typedef {import("../core/types.js").RoadNumber} RoadNumber */

/** The bar under the road map that offers what can be done with the chosen bars. */
export class ChooseBar {
  /** @type {RoadNumber|undefined} */
  #number;
  /** @type {RoadBar|undefined} */
  #first;
  /** @type {RoadBar|undefined} */
  #last;
  /** @type {RoadNumber[]} in the order of the night */
  numbers = [];
  /** What the chosen bars are called in the part beside this one. */
  theirs = new TheirBars();
  #bus;
  node = el("section", { class: "choose", hidden: true, "aria-label": "The chosen bars", "aria-live": "polite" });

  /** @param {import("../core/bus.js").EventBus<import("../core/types.js").RoadEvents>} bus gets `chosen`, and `propose` with a change */
  constructor(bus) {
    this.#bus = bus;
    addEventListener("keydown", (event) => this.#tab(event));
  }

  /**
   * What can be done with the chosen bars comes next to them for the keys too, and back again: in the page it stands behind all
   * numbers.
   *
   * @param {KeyboardEvent} event
   */
  #tab(event) {
    const at = event.target instanceof Element ? event.target : undefined;
    if (event.key !== "Tab" || this.node.hidden || !at || document.querySelector("dialog[open]")) return;
    const [back, ...kinds] = this.node.querySelectorAll("button");
    const to = event.shiftKey
      ? at === back ? document.querySelector(".form-bar.chosen") : undefined
      : at.closest(".form-bar.chosen") ? (kinds.find((b) => b.checkVisibility()) ?? back) : undefined;
    if (!(to instanceof HTMLElement || to instanceof SVGElement)) return;
    event.preventDefault();
    to.focus();
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

  /** @param {string} id of a bar that the address asks for; none is chosen where it isn't played */
  pickBar(id) {
    const number = this.numbers.find((n) => n.bars.some((b) => b.id === id));
    const bar = number?.bars.find((b) => b.id === id);
    if (number && bar) this.pick(number, bar);
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
    const kinds = Object.entries(KINDS).map(([kind, { text }]) => /** @type {[string, string]} */ ([kind, text]));
    show(
      this.node,
      el("div", { class: "row between" },
        el("p", { class: "choose-text" }, el("b", { text: `${numberName(number)}: ${from === to ? `bar ${from}` : `bars ${from} to ${to}`}${this.theirs.behind(number.label, from, to)}` }), this.#last ? null : el("span", { class: "soft", text: "  Choose a second bar for more than one." })),
        button("Let go", () => this.clear(), { class: "btn btn-quiet" }),
      ),
      mayCorrect() ? null : el("p", { class: "soft small", text: LOOKS }),
      el("div", { class: "choice", ...CORRECTORS }, kinds.map(([kind, text]) => button(text, () => propose(kind), { class: kind === "cut" ? "btn btn-main" : "btn", "data-kind": kind }))),
    );
  }

  /** @param {RoadNumber} number */
  #drawWhole(number) {
    const propose = async (/** @type {keyof typeof OF_NUMBER} */ kind) => {
      const { text, fields } = OF_NUMBER[kind];
      const answer = fields ? await ask(`${text}: ${numberName(number)}`, fields(), { yes: "Go on" }) : undefined;
      if (fields && !answer) return;
      const change = changeOfNumber(kind, number.label, answer ?? undefined);
      this.#bus.emit("propose", { change, text: sentence(change) });
    };
    const labels = this.numbers.map((n) => n.label);
    const others = this.numbers.filter((n) => n.label !== number.label);
    const place = select("place", [...others.map((n) => /** @type {[string, string]} */ ([n.label, `before ${numberName(n)}`])), ["", "at the end"]]);
    place.setAttribute("aria-label", `Where ${numberName(number)} is played`);
    place.value = labels[labels.indexOf(number.label) + 2] ?? "";
    const move = () => {
      const numbers = orderOf(labels, number.label, place.value);
      const change = { kind: /** @type {const} */ ("order"), numbers };
      if (numbers.length > 1) this.#bus.emit("propose", { change, text: sentence(change) });
    };
    show(
      this.node,
      el("div", { class: "row between" }, el("p", { class: "choose-text" }, el("b", { text: `${numberName(number)}, the whole of it` })), button("Let go", () => this.clear(), { class: "btn btn-quiet" })),
      mayCorrect() ? null : el("p", { class: "soft small", text: LOOKS }),
      el(
        "div",
        { class: "choice", ...CORRECTORS },
        Object.values(OF_NUMBER).map(({ kind, text }, i) => button(text, () => void propose(kind), { class: i === 0 ? "btn btn-main" : "btn", "data-kind": kind })),
      ),
      others.length && number.label
        ? el("div", { class: "row place-row", ...CORRECTORS }, el("span", { text: "It is played" }), place, button("Move it", move, { class: "btn", "data-kind": "order" }))
        : null,
    );
  }

  /**
   * @param {string} kind
   * @param {string} number
   * @param {string} first
   * @param {string} last
   */
  async #propose(kind, number, first, last) {
    const { title, fields, after } = KINDS[kind];
    const here = this.numbers.findIndex((n) => n.label === number);
    const later = this.numbers.slice(here + 1).filter((n) => n.label && !n.tacet).map((n) => /** @type {[string, string]} */ ([n.label, numberName(n)]));
    const questions = fields(first, last, later);
    let answer;
    if (questions.length) {
      const where = after ? last : `${first}${last !== first ? ` to ${last}` : ""}`;
      const none = kind === "jump-on" && later.length === 0;
      answer = await ask(`${title}: ${number ? `${numberNo(number)}, ` : ""}${where}`, questions, none ? {} : { yes: "Go on" });
      if (!answer) return;
    }
    const change = changeOf(kind, { number, first, last }, answer);
    this.#bus.emit("propose", { change, text: sentence(change) });
  }
}
