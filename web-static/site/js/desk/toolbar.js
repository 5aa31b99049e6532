import { button, el } from "../core/dom.js";
import { icon } from "../core/icons.js";

/** The row over the page: which page, how large, back and again, checked. */
export class Toolbar {
  #act;
  #page = el("span", { class: "page-name" });
  #parts = /** @type {Record<string, HTMLButtonElement>} */ ({});
  node;

  /** @param {(run: string) => void} act */
  constructor(act) {
    this.#act = act;
    const part = (/** @type {string} */ run, /** @type {string} */ label, /** @type {string} */ sign, cls = "") => {
      const made = button("", () => this.#act(run), { class: `btn btn-icon ${cls}`, "aria-label": label, title: label, id: `tool-${run}` }, icon(sign));
      this.#parts[run] = made;
      return made;
    };
    const verify = button("Page checked", () => this.#act("verify"), { class: "btn verify", id: "tool-verify", "aria-pressed": "false" }, icon("tick"));
    this.#parts.verify = verify;
    this.node = el(
      "div",
      { class: "toolbar", role: "toolbar", "aria-label": "Page and view" },
      el("div", { class: "tool-set" }, part("page-before", "Page before", "left"), this.#page, part("page-after", "Page after", "right")),
      el("div", { class: "tool-set" }, part("undo", "Take back", "undo"), part("redo", "Do it again", "redo")),
      el("div", { class: "tool-set" }, part("add", "Add a barline", "barline"), part("doubt", "Next doubt", "doubt")),
      el("div", { class: "tool-set" }, part("smaller", "Smaller", "minus", "hide-small"), part("fit", "Whole page or its width", "fit"), part("larger", "Larger", "plus", "hide-small"), part("dim", "Paper: bright, dimmed, night", "dim")),
      el("div", { class: "tool-set tool-end" }, part("help", "All keys", "help", "hide-small"), verify),
    );
  }

  /**
   * @param {{index: number, pages: number, first: boolean, last: boolean, undo: number, redo: number, adding: boolean, verified: boolean, doubts: number, readable: boolean}} now
   */
  draw(now) {
    this.#page.textContent = `${now.index} of ${now.pages}`;
    this.#page.setAttribute("aria-label", `Page ${now.index} of ${now.pages}`);
    this.#parts["page-before"].disabled = now.first;
    this.#parts["page-after"].disabled = now.last;
    this.#parts.undo.disabled = now.undo === 0;
    this.#parts.redo.disabled = now.redo === 0;
    this.#parts.doubt.disabled = now.doubts === 0;
    this.#parts.add.setAttribute("aria-pressed", String(now.adding));
    this.#parts.verify.setAttribute("aria-pressed", String(now.verified));
    this.#parts.verify.disabled = !now.readable;
  }
}
