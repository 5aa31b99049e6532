import { el, show } from "../core/dom.js";
import { againText, gapText, tempoLink, turnKey, verdictChip } from "../shared/turn.js";

/** @typedef {import("../core/types.js").RoadTurn} Turn */

/** What the changes do to the turns, seen while they are made. */
export class TurnStrip {
  #name;
  /** @type {Map<string, Turn>} as they were before the last step */
  #before = new Map();
  #shown = "";
  node = el("section", { class: "card", "aria-label": "Your turns" });

  #book;
  #begins;

  /**
   * @param {string} book
   * @param {(bar: string) => string} name says where a bar is
   * @param {(bar: string) => string|undefined} begins the bar at which its number begins
   */
  constructor(book, name, begins) {
    this.#book = book;
    this.#name = name;
    this.#begins = begins;
  }

  /**
   * @param {Turn[]} turns
   * @param {string} more where all that is known of them stands
   */
  draw(turns, more) {
    const now = JSON.stringify(turns);
    if (now === this.#shown) return;
    this.#shown = now;
    const before = this.#before;
    const first = before.size === 0;
    this.#before = new Map(turns.map((t) => [turnKey(t), t]));
    const gone = [...before].filter(([key]) => !this.#before.has(key)).map(([, t]) => t);
    show(
      this.node,
      el("div", { class: "row between" }, el("h2", { text: "Your turns" }), el("a", { class: "btn btn-quiet", href: more, text: "All of them" })),
      turns.length ? null : el("p", { class: "soft", text: "No page has to be turned." }),
      el("ul", { class: "strip", "aria-live": "polite" }, turns.map((t) => this.#line(t, first ? t : before.get(turnKey(t)))), gone.map((t) => this.#gone(t))),
    );
  }

  /**
   * @param {Turn} turn
   * @param {Turn|undefined} was
   */
  #line(turn, was) {
    const same = was && was.verdict === turn.verdict && was.leaves === turn.leaves && gapText(was.gap) === gapText(turn.gap);
    return el(
      "li",
      { class: same ? "strip-turn" : "strip-turn strip-new", "data-turn": turnKey(turn) },
      el("b", { text: `${turn.fromPage} → ${turn.toPage}${turn.pass > 1 ? `, pass ${turn.pass}` : ""}` }),
      verdictChip(turn.verdict),
      el("span", { class: "soft small", text: [this.#name(turn.leaves), gapText(turn.gap), againText(turn)].filter(Boolean).join(" · ") }),
      tempoLink(turn, this.#book, this.#begins(turn.leaves)),
      same ? null : el("span", { class: "small", text: was ? `was ${gapText(was.gap)}, ${this.#name(was.leaves)}` : "new" }),
    );
  }

  /** @param {Turn} turn */
  #gone(turn) {
    return el("li", { class: "strip-turn strip-new" }, el("b", { text: `${turn.fromPage} → ${turn.toPage}` }), el("span", { class: "small", text: "no longer there" }));
  }
}
