import { button, el, show } from "../core/dom.js";
import { icon } from "../core/icons.js";
import { complain } from "../core/toast.js";
import { count } from "../core/words.js";
import { checkList } from "../shared/lists.js";
import { sentence } from "./kinds.js";

/** @typedef {import("../core/types.js").UnderstoodLine} UnderstoodLine */
/** @typedef {import("../core/types.js").Change} Change */

/** Takes changes in words; shows what was understood before it counts. */
export class WordBox {
  #model;
  #area = el("textarea", { id: "change-words", rows: 3, spellcheck: "false", "aria-label": "Changes in words, one a line", placeholder: "No. 7: cut 34 to 49" });
  #result = el("div", { "aria-live": "polite", class: "understood" });
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
      this.#area,
      el("div", { class: "row words-foot" }, button("Read it", () => void this.#read(), { class: "btn btn-main", id: "read-words" })),
      this.#result,
    );
  }

  /** A pasted list is shown whole, up to a size. */
  #grow() {
    this.#area.rows = Math.min(14, Math.max(3, this.#area.value.split("\n").length + 1));
  }

  async #read() {
    const text = this.#area.value.trim();
    if (!text) return this.#area.focus();
    try {
      this.#draw(await this.#model.understand(text));
    } catch (error) {
      complain(error);
    }
  }

  /** @param {UnderstoodLine[]} lines */
  #draw(lines) {
    const ready = lines.filter((l) => l.understood && !l.asks);
    const store = async () => {
      try {
        for (const line of ready) await this.#model.add(/** @type {Change} */ (line.understood));
        // The answer leaves the number out where it knew it; what is asked again must name it still.
        const typed = this.#area.value.split("\n");
        const open = lines.filter((l) => !ready.includes(l)).map((l) => typed.find((t) => t.includes(l.line)) ?? l.line);
        this.#area.value = open.join("\n");
        this.#grow();
        if (open.length) await this.#read();
        else show(this.#result);
      } catch (error) {
        complain(error);
      }
    };
    show(
      this.#result,
      el("ul", { class: "lines" }, lines.map((line) => this.#line(line))),
      ready.length ? button(ready.length === 1 ? "Yes, make it so" : `Make these ${count(ready.length, "change")}`, () => void store(), { class: "btn btn-main", id: "accept-words" }) : null,
    );
    if (ready.length === 0) this.#area.focus();
  }

  /** @param {UnderstoodLine} line */
  #line(line) {
    const good = line.understood && !line.asks;
    const candidates = line.candidates ?? [];
    return el(
      "li",
      { class: good ? "line" : "line line-asks" },
      el("span", { class: "soft small", text: line.line }),
      el("strong", {}, icon(good ? "tick" : "doubt"), " ", line.asks ?? line.says ?? (line.understood ? sentence(line.understood) : "This was not understood.")),
      checkList(line.checks ?? []),
      good || candidates.length === 0 ? null : el("p", { class: "small", text: `Possible: ${candidates.join(" · ")}` }),
    );
  }
}
