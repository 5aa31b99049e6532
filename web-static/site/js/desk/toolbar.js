import { button, el } from "../core/dom.js";
import { icon } from "../core/icons.js";
import { CORRECTORS } from "../core/may.js";

/** The row over the page: which page, how large, back and again, checked. */
export class Toolbar {
  #act;
  #at = el("input", { class: "page-at", id: "page-at", type: "text", inputmode: "numeric", autocomplete: "off", maxlength: 4, title: "Go to a page (G)" });
  #of = el("span");
  #page = el("label", { class: "page-name" }, el("span", { class: "visually-hidden", text: "Page" }), this.#at, this.#of);
  #parts = /** @type {Record<string, HTMLButtonElement>} */ ({});
  node;

  /**
   * @param {(run: string) => void} act
   * @param {(index: number) => void} jump to a page
   */
  constructor(act, jump) {
    this.#act = act;
    this.#at.addEventListener("focus", () => this.#at.select());
    this.#at.addEventListener("change", () => jump(Number(this.#at.value)));
    const part = (/** @type {string} */ run, /** @type {string} */ label, /** @type {string} */ sign, cls = "", word = "") => {
      const made = button("", () => this.#act(run), { class: `btn btn-icon ${cls}`, "aria-label": label, title: label, id: `tool-${run}` }, icon(sign), word ? el("span", { class: "tool-word", text: word }) : null);
      this.#parts[run] = made;
      return made;
    };
    const verify = button("Page checked", () => this.#act("verify"), { class: "btn verify", id: "tool-verify", ...CORRECTORS, "aria-pressed": "false" }, icon("tick"));
    this.#parts.verify = verify;
    const add = part("add", "Add a barline", "barline", "", "Barline");
    add.dataset.for = CORRECTORS["data-for"];
    this.node = el(
      "div",
      { class: "toolbar", role: "toolbar", "aria-label": "Page and view" },
      el("div", { class: "tool-set" }, part("page-before", "Page before", "left"), this.#page, part("page-after", "Page after", "right")),
      el("div", { class: "tool-set", ...CORRECTORS }, part("undo", "Take back", "undo", "", "Back"), part("redo", "Do it again", "redo", "", "Again")),
      el("div", { class: "tool-set" }, add, part("doubt", "Next doubt", "doubt", "", "Doubt")),
      el("div", { class: "tool-set" }, part("smaller", "Smaller", "minus", "hide-small", "Smaller"), part("fit", "Whole page or its width", "fit", "", "Page"), part("larger", "Larger", "plus", "hide-small", "Larger"), part("dim", "Paper: bright, dimmed, night", "dim", "", "Paper")),
      el("div", { class: "tool-set tool-end" }, part("help", "All keys", "help", "hide-small", "Keys"), verify),
    );
  }

  /**
   * @param {{index: number, pages: number, first: boolean, last: boolean, undo: number, redo: number, adding: boolean, verified: boolean, doubts: number, readable: boolean}} now
   */
  draw(now) {
    this.#at.value = String(now.index);
    this.#of.textContent = ` of ${now.pages}`;
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
