import { button, el, show } from "../core/dom.js";

/** The side panel: bar, doubts, history. */
export class Panel {
  #tabs = el("div", { class: "tabs", role: "tablist", "aria-label": "Panel" });
  #body = el("div", { class: "panel-body", role: "tabpanel", id: "panel-body", tabindex: 0 });
  #grip = button("", () => this.fold(!this.#folded), { class: "btn btn-icon grip", "aria-label": "Make the panel small or large", "aria-controls": "panel-body" }, el("span", { class: "grip-line", "aria-hidden": "true" }));
  node = el("section", { class: "panel", "aria-label": "Corrections" }, this.#grip, this.#tabs, this.#body);
  #tab = "doubts";
  #folded = false;
  /** @type {Record<string, {name: string, draw: () => Node, badge?: () => number, short?: () => boolean}>} */
  #kinds = {};
  /** @type {Map<string, HTMLElement>} */
  #buttons = new Map();

  /** @param {Record<string, {name: string, draw: () => Node, badge?: () => number, short?: () => boolean}>} kinds */
  constructor(kinds) {
    this.#kinds = kinds;
    for (const [id, kind] of Object.entries(kinds)) {
      const tab = el("button", { type: "button", role: "tab", class: "tab", id: `tab-${id}`, "aria-controls": "panel-body", on: { click: () => this.open(id), keydown: (/** @type {KeyboardEvent} */ e) => this.#arrows(e) }, text: kind.name });
      this.#buttons.set(id, tab);
      this.#tabs.append(tab);
    }
  }

  get tab() {
    return this.#tab;
  }

  /** @param {KeyboardEvent} event */
  #arrows(event) {
    if (event.key !== "ArrowLeft" && event.key !== "ArrowRight") return;
    event.stopPropagation();
    const ids = Object.keys(this.#kinds);
    const step = event.key === "ArrowRight" ? 1 : ids.length - 1;
    const next = ids[(ids.indexOf(this.#tab) + step) % ids.length];
    this.open(next);
    this.#buttons.get(next)?.focus();
  }

  /** @param {string} tab */
  open(tab) {
    this.turn(tab);
    this.draw();
  }

  /** @param {string} tab that is drawn with what is drawn next */
  turn(tab) {
    this.#tab = tab;
    this.fold(false);
  }

  /** @param {boolean} folded */
  fold(folded) {
    this.#folded = folded;
    this.node.classList.toggle("folded", folded);
    this.#grip.setAttribute("aria-expanded", String(!folded));
  }

  /** Brings the marked entry of a list into view. */
  showCurrent() {
    this.#body.querySelector("[aria-current]")?.scrollIntoView({ block: "nearest" });
  }

  /** Goes to the first answer of the doubt at hand. */
  toAnswer() {
    /** @type {HTMLElement|null} */ (this.#body.querySelector("#answer-1"))?.focus({ preventScroll: true });
  }

  draw() {
    for (const [id, tab] of this.#buttons) {
      const on = id === this.#tab;
      tab.setAttribute("aria-selected", String(on));
      tab.tabIndex = on ? 0 : -1;
      const badge = this.#kinds[id].badge?.() ?? 0;
      show(tab, this.#kinds[id].name, badge ? el("span", { class: "badge", text: String(badge) }) : null);
    }
    this.node.classList.toggle("short", this.#kinds[this.#tab].short?.() ?? false);
    this.#body.setAttribute("aria-labelledby", `tab-${this.#tab}`);
    const held = this.#body.contains(document.activeElement);
    const focused = held ? document.activeElement?.id : "";
    // what is in view stays there: the place is only lost where it is asked for in between, which costs a layout
    show(this.#body, this.#kinds[this.#tab].draw());
    // where what had the focus is gone, its part of the panel has it
    if (held) ((focused && document.getElementById(focused)) || this.#body).focus({ preventScroll: true });
  }
}

