import { isSilent } from "../core/api.js";
import { button, el, show } from "../core/dom.js";
import { icon } from "../core/icons.js";
import { complain } from "../core/toast.js";
import { count } from "../core/words.js";
import { checkList } from "../shared/lists.js";
import { partName } from "../shared/theirs.js";
import { sentence } from "./kinds.js";

/** @typedef {import("../core/types.js").UnderstoodLine} UnderstoodLine */
/** @typedef {import("../core/types.js").Change} Change */

/** Takes changes in words; shows what was understood before it counts. */
export class WordBox {
  #model;
  #area = el("textarea", { id: "change-words", rows: 3, spellcheck: "false", "aria-label": "Changes in words, one a line", placeholder: "No. 7: cut 34 to 49" });
  #result = el("div", { "aria-live": "polite", class: "understood" });
  /** Whose bar numbers the words go by; there is a choice only where another part lies beside this one. */
  #whose = el("fieldset", { class: "words-whose", id: "words-whose", hidden: true });
  node;

  /** @param {import("./model.js").RoadModel} model */
  constructor(model) {
    this.#model = model;
    this.#area.addEventListener("input", () => this.#grow());
    this.#area.addEventListener("keydown", (event) => {
      if (event.key === "Enter" && !event.shiftKey && !this.#area.value.includes("\n")) {
        event.preventDefault();
        void this.#read();
      }
    });
    this.node = el(
      "section",
      { class: "card", "aria-label": "Changes in words" },
      el("h2", { text: "Say it in words" }),
      el("p", { class: "soft small", text: "One change a line, or paste the director's whole list. Nothing counts until you say so." }),
      this.#whose,
      this.#area,
      el("div", { class: "row words-foot" }, button("Read it", () => void this.#read(), { class: "btn btn-main", id: "read-words" })),
      this.#result,
    );
  }

  /**
   * Says whose numbers may be typed.
   *
   * @param {import("../core/types.js").Align} beside
   * @param {string} part what this part is called
   */
  beside(beside, part) {
    const whose = beside.other ? partName(beside.other) : "";
    this.#whose.hidden = !whose;
    if (this.#whose.dataset.whose === whose) return;
    this.#whose.dataset.whose = whose;
    const way = (/** @type {string} */ value, /** @type {string} */ name, /** @type {boolean} */ checked) => el("label", { class: "words-way" }, el("input", { type: "radio", name: "numbers", value, checked }), ` ${name}`);
    show(this.#whose, el("legend", { class: "small", text: "Bar numbers as in" }), way("mine", part || "my part", true), way("other", whose || "the other part", false));
  }

  get #numbers() {
    const other = this.#whose.querySelector("input[value=other]");
    return !this.#whose.hidden && other instanceof HTMLInputElement && other.checked ? "other" : "mine";
  }

  /** A pasted list is shown whole, up to a size. */
  #grow() {
    this.#area.rows = Math.min(14, Math.max(3, this.#area.value.split("\n").length + 1));
  }

  async #read() {
    const text = this.#area.value.trim();
    if (!text) return this.#area.focus();
    try {
      this.#draw(await this.#model.understand(text, this.#numbers));
    } catch (error) {
      if (isSilent(error)) this.#notUnderstood(text);
      else complain(error);
    }
  }

  /**
   * What words mean the service works out. Without it they can be kept as they were said, so that nothing is forgotten.
   *
   * @param {string} text
   */
  #notUnderstood(text) {
    const lines = text.split("\n").map((line) => line.trim()).filter(Boolean);
    const notes = lines.map((line) => {
      const [, number, said] = /^no\.?\s*(\S+?)\s*[:,]\s*(.+)$/i.exec(line) ?? [];
      return /** @type {Change} */ ({ kind: "note", ...(number ? { number } : {}), text: said ?? line });
    });
    show(
      this.#result,
      el("p", { class: "soft", id: "words-later", text: "barmap is not answering: what this means is worked out when it does. Leave it here and read it then, or keep it as it was said." }),
      button(notes.length === 1 ? "Keep it as a note" : `Keep ${count(notes.length, "note")}`, () => void this.#settle([], [], notes), { class: "btn", id: "keep-words" }),
    );
  }

  /** @param {UnderstoodLine[]} lines */
  #draw(lines) {
    const ready = lines.filter((l) => l.understood && !l.asks);
    const notes = ready.filter((l) => l.note).length;
    const made = ready.length - notes;
    const what = [made === 0 ? "" : `Make ${made === 1 ? "it so" : `these ${count(made, "change")}`}`, notes === 0 ? "" : `keep ${count(notes, "note")}`].filter(Boolean).join(", ");
    show(
      this.#result,
      el("ul", { class: "lines" }, lines.map((line) => this.#line(line, lines))),
      ready.length ? button(what.charAt(0).toUpperCase() + what.slice(1), () => void this.#settle(lines, ready, ready.map((l) => /** @type {Change} */ (l.understood))), { class: "btn btn-main", id: "accept-words" }) : null,
    );
    if (ready.length === 0 && !lines.some((l) => l.readings?.length)) this.#area.focus();
  }

  /**
   * Makes the changes that some lines come to; the others stay, and are read again with these in force.
   *
   * @param {UnderstoodLine[]} lines
   * @param {UnderstoodLine[]} done
   * @param {Change[]} changes
   */
  async #settle(lines, done, changes) {
    try {
      if (!(await this.#model.addAll(changes))) return;
      this.#area.value = lines.filter((l) => !done.includes(l)).map((l) => l.line).join("\n");
      this.#grow();
      if (this.#area.value) await this.#read();
      else show(this.#result);
    } catch (error) {
      complain(error);
    }
  }

  /**
   * @param {UnderstoodLine} line
   * @param {UnderstoodLine[]} lines
   */
  #line(line, lines) {
    const good = line.understood && !line.asks;
    const candidates = line.candidates ?? [];
    const readings = line.readings ?? [];
    const { keep } = line;
    return el(
      "li",
      { class: good ? "line" : "line line-asks" },
      el("span", { class: "soft small", text: line.line }),
      el("strong", {}, icon(good ? "tick" : "doubt"), " ", line.asks ?? line.says ?? (line.understood ? sentence(line.understood) : "This was not understood.")),
      checkList(line.checks ?? []),
      good || readings.length === 0
        ? null
        : el(
            "div",
            { class: "choice" },
            readings.map((r) => (r.changes.length ? button(r.says, () => void this.#settle(lines, [line], r.changes), { class: "btn" }) : el("span", { class: "small", text: r.says }))),
          ),
      good || candidates.length === 0 ? null : el("p", { class: "small", text: `Possible: ${candidates.join(" · ")}` }),
      good || !keep || readings.some((r) => r.changes.some((c) => c.kind === "note"))
        ? null
        : el("div", { class: "choice" }, button("Keep it as a note", () => void this.#settle(lines, [line], [keep]), { class: "btn" })),
    );
  }
}
