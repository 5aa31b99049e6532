import { bookPath, call, get, isMissing, isStale, read } from "../core/api.js";
import { ask, confirm, field } from "../core/dialog.js";
import { button, el, need, show } from "../core/dom.js";
import { Newest } from "../core/newest.js";
import { bookInAddress, deadEnd, noBook, shell } from "../core/shell.js";
import { complain, toast } from "../core/toast.js";
import { count } from "../core/words.js";
import { openBook } from "../shared/open-book.js";
import { carryCard } from "./carry.js";
import { numberCards } from "./numbers.js";

/** @typedef {import("../core/types.js").Align} Align */
/** @typedef {import("../core/types.js").AlignPin} AlignPin */
/** @typedef {import("../core/types.js").BookInfo} BookInfo */

const LIST_HINT = "One line a number: its label, then each mark with the director's bar, and where it ends. 7 Low Tide: A 9, B 17, end 48";

/** What is not for a guest, by what one may. @type {Record<NonNullable<Align["may"]>, string>} */
const MAY_NOT = {
  choose: "",
  name: "Choosing another part and carrying changes over is for whoever has the shelf.",
  look: "You can look at this. Saying which bars are the same and carrying changes over is for whoever owns the book.",
};

/** What a guest sees where no part was chosen. */
function none() {
  return el(
    "section",
    { class: "card", id: "align-none", "aria-label": "The other part" },
    el("p", { id: "align-guest", text: "No other part lies beside this one. Whoever has the shelf can choose one." }),
  );
}

/** Another part of the show beside this one: whose bars are called what. */
class AlignRoom {
  #book = bookInAddress();
  #title = "";
  #part = "";
  #revision = "";
  #newest = new Newest();
  /** What was said of a part that is not on this shelf. @type {AlignPin[]} */
  #pins = [];
  #body = el("div", { class: "align-body" });
  #file = el("input", { type: "file", id: "align-file", accept: ".json,.zip,.musicxml,.xml,.mxl", class: "visually-hidden", tabindex: -1, "aria-label": "A file of the other part" });

  async start() {
    shell({ room: "align", book: this.#book });
    if (!this.#book) return deadEnd("Which book?", "The address names no book.");
    this.#file.addEventListener("change", () => {
      const file = this.#file.files?.[0];
      this.#file.value = "";
      if (file) void this.#open(file);
    });
    try {
      const info = await read(this.#book, "");
      this.#title = info.title;
      this.#part = info.part || "this part";
      shell({ room: "align", book: this.#book, title: `${info.title}, ${info.part}` });
      show(
        need("main"),
        el(
          "div",
          { class: "wide align" },
          el("h1", { text: "Two parts of one show" }),
          el("p", { class: "soft", text: "Another part beside this one, the director's for instance: which bar is called what in it, and changes said in either's numbers." }),
          this.#body,
          this.#file,
        ),
      );
      await this.#load();
    } catch (error) {
      if (isMissing(error)) return noBook();
      complain(error);
      deadEnd("The two parts can't be shown right now", "Reload the page to try again.");
    }
  }

  async #load() {
    const mayShow = this.#newest.ask();
    /** @type {import("../core/api.js").Answered<Align>} */
    const { data, revision } = await call("GET", bookPath(this.#book, "/align"));
    if (mayShow()) this.#draw(data, revision);
  }

  /**
   * @param {Align} align
   * @param {string} revision
   */
  #draw(align, revision) {
    this.#revision = revision;
    const open = new Set([...this.#body.querySelectorAll("details[open]")].map((d) => d.id));
    const { other, table, may = "choose" } = align;
    if (!other || !table) return void show(this.#body, may === "choose" ? this.#choosing(align) : none());
    const name = other.part || other.title || "the other part";
    const pins = align.pins ?? [];
    show(
      this.#body,
      this.#head(align, name),
      may === "choose" ? carryCard(this.#book, { id: other.id, name }, this.#part) : null,
      numberCards(
        align,
        { here: this.#part, there: name },
        may === "look"
          ? undefined
          : {
              pin: (pin) => this.#keep(other.id, [...pins, pin]),
              unpin: (pin) => void this.#keep(other.id, pins.filter((p) => p !== pin)),
            },
      ),
    );
    for (const id of open) {
      const details = document.getElementById(id);
      if (details instanceof HTMLDetailsElement) details.open = true;
    }
  }

  /**
   * @param {Align} align
   * @param {string} name
   */
  #head(align, name) {
    const may = align.may ?? "choose";
    const rows = align.table?.numbers ?? [];
    const unsure = rows.filter((r) => r.stretches.some((s) => s.how === "unsure")).length;
    const same = rows.filter((r) => r.same).length;
    const said = [`${count(rows.length, "number")} in both`, `${same} with the same bar numbers`, unsure ? `${unsure} where something is not sure` : ""];
    const alone = (/** @type {string[]} */ labels, /** @type {string} */ where) => (labels.length ? el("p", { class: "small", text: `Only in ${where}: ${labels.map((l) => `No. ${l}`).join(", ")}.` }) : null);
    return el(
      "section",
      { class: "card", id: "align-head", "aria-label": "The other part" },
      el("h2", { text: `${this.#part} beside ${name}` }),
      el("p", { text: `${said.filter(Boolean).join(", ")}.` }),
      alone(align.table?.onlyHere ?? [], this.#part),
      alone(align.table?.onlyThere ?? [], name),
      (align.table?.problems ?? []).map((p) => el("p", { class: "align-problem", text: p })),
      MAY_NOT[may] ? el("p", { class: "soft small", id: "align-guest", text: MAY_NOT[may] }) : null,
      may === "look"
        ? null
        : el(
            "div",
            { class: "row" },
            may === "choose" ? el("a", { class: "btn", href: `/book.html?b=${encodeURIComponent(align.other?.id ?? "")}`, text: `Open ${name}` }) : null,
            may === "choose" ? button("Another part", () => void this.#choose(), { id: "align-choose" }) : null,
            button("Take it away", () => void this.#remove(), { id: "align-remove" }),
          ),
    );
  }

  /** @param {Align} align where one was chosen that is not on this shelf, it is said which */
  #choosing({ gone, called, pins = [] }) {
    this.#pins = gone ? pins : [];
    const kept = this.#pins.length ? ` What you said is the same (${count(this.#pins.length, "bar")}) is kept for it.` : "";
    return el(
      "section",
      { class: "card", id: "align-none", "aria-label": "Which other part" },
      el("h2", { text: "Which other part?" }),
      gone ? el("p", { class: "align-problem", id: "align-gone", text: (called ? `This book came with ${called} beside it, which is not on this shelf. Open that book here too, then choose it.` : "The other part is not on the shelf any more. Bring it back from the bin, or choose another one.") + kept }) : null,
      el("p", { class: "soft small", text: "A book on your shelf, a file (a bar map, a packed book, MusicXML), or the director's bar numbers as you have them on paper. Nothing in this book is changed." }),
      el(
        "div",
        { class: "row" },
        button("A book on the shelf", () => void this.#choose(), { class: "btn btn-main", id: "align-choose" }),
        button("Open a file", () => this.#file.click(), { id: "align-open" }),
        button("Type the director's bar numbers", () => void this.#type(), { id: "align-type" }),
      ),
    );
  }

  async #choose() {
    try {
      /** @type {{books: BookInfo[]}} */
      const { books } = await get("/api/books");
      const others = books.filter((b) => b.id !== this.#book);
      if (others.length === 0) return void toast("There is no other book on the shelf. Open a file, or type the director's bar numbers.");
      // the same show first
      others.sort((a, b) => Number(b.title === this.#title) - Number(a.title === this.#title));
      const select = el("select", { name: "book" }, others.map((b) => el("option", { value: b.id, text: `${b.title}, ${b.part || "no part named"}` })));
      const answer = await ask("Which book is the other part?", [field("The other part", select, "Another chair's part, or the director's, of the same show.")], { yes: "Lay it beside this one" });
      const id = String(answer?.get("book") ?? "");
      if (id) await this.#keep(id, this.#pins);
    } catch (error) {
      complain(error);
    }
  }

  /** @param {File} file */
  async #open(file) {
    try {
      const made = await openBook(file, `Which part of ${file.name} is the other one?`);
      if (made) await this.#keep(made.id, this.#pins);
    } catch (error) {
      complain(error);
    }
  }

  async #type() {
    const area = el("textarea", { name: "text", rows: 8, maxlength: 100000, spellcheck: false, class: "align-list" });
    const answer = await ask("The director's bar numbers", [field("As written on your list", area, LIST_HINT)], { yes: "Lay it beside this one" });
    const text = String(answer?.get("text") ?? "").trim();
    if (!text) return;
    try {
      /** @type {import("../core/api.js").Answered<{id: string}>} */
      const { data } = await call("POST", bookPath(this.#book, "/align/list"), { body: { text } });
      await this.#keep(data.id, []);
    } catch (error) {
      complain(error);
    }
  }

  /**
   * @param {string} other id of the other book
   * @param {AlignPin[]} pins
   * @returns {Promise<boolean>} whether it was kept
   */
  async #keep(other, pins) {
    try {
      /** @type {import("../core/api.js").Answered<Align>} */
      const { data, revision } = await call("PUT", bookPath(this.#book, "/align"), { body: { book: other, pins }, match: this.#revision });
      this.#draw(data, revision);
      return true;
    } catch (error) {
      await this.#failed(error);
      return false;
    }
  }

  async #remove() {
    if (!(await confirm("Take the other part away?", "It stays on the shelf. The bars you named as the same are forgotten.", "Take it away"))) return;
    try {
      /** @type {import("../core/api.js").Answered<Align>} */
      const { data, revision } = await call("DELETE", bookPath(this.#book, "/align"), { match: this.#revision });
      this.#draw(data, revision);
    } catch (error) {
      await this.#failed(error);
    }
  }

  /** @param {unknown} error */
  async #failed(error) {
    if (!isStale(error)) return complain(error);
    toast("Someone changed these settings meanwhile. Look at them and try again.", { key: "stale" });
    await this.#load().catch(complain);
  }
}

void new AlignRoom().start();
