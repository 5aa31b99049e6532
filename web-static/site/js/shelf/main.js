import { bookPath, call, get, isStale, Kept, write } from "../core/api.js";
import { later } from "../core/clock.js";
import { ask, field } from "../core/dialog.js";
import { button, el, need, show } from "../core/dom.js";
import { icon } from "../core/icons.js";
import { shell } from "../core/shell.js";
import { complain, toast } from "../core/toast.js";
import { binList } from "./bin.js";
import { bookCard } from "./card.js";
import { emptyShelf } from "./empty.js";
import { noticeList } from "./notices.js";
import { opener } from "./open.js";

/** @typedef {import("../core/types.js").BookInfo} BookInfo */
/** @typedef {import("../core/types.js").Bin} Bin */

const CARE =
  "A rented book is someone's property and copyright. Where the pages you add are kept is said where you add them. " +
  "Whether you may photograph or scan a book at all is decided by the hire agreement and your local rules: " +
  "if in doubt, ask the hirer or the show's librarian.";

/** The shelf: every book on this machine. */
class Shelf {
  #list = el("div");
  #bin = el("div");
  #notices = el("div");
  #care = el("aside", { class: "care", "aria-label": "Care" }, el("p", { text: CARE }));
  #callOff = () => {};

  start() {
    shell({ title: "The shelf" });
    show(
      need("main"),
      el(
        "div",
        { class: "wide" },
        el(
          "div",
          { class: "row between" },
          el("h1", { text: "The shelf" }),
          el("div", { class: "row" }, opener(() => this.load()), button("New book", () => this.#create(), { class: "btn btn-main", id: "new-book" }, icon("plus"))),
        ),
        this.#notices,
        this.#list,
        this.#bin,
        this.#care,
      ),
    );
    show(this.#list, el("p", { class: "waiting", text: "Looking on the shelf …" }));
    void this.load();
  }

  async load() {
    this.#callOff();
    try {
      /** @type {{books: BookInfo[]}} */
      const { books } = await get("/api/books");
      /** @type {Bin} */
      const bin = await get("/api/bin");
      this.#draw(books);
      show(this.#notices, await noticeList(() => this.load()).catch(() => null));
      show(this.#bin, binList(bin, () => this.load()));
      const busy = books.some((b) => b.job && ["waiting", "running"].includes(b.job.state));
      if (busy) this.#callOff = later(2000, () => void this.load());
    } catch (error) {
      complain(error);
      show(this.#list, el("p", { class: "waiting", text: "The shelf can't be read right now." }), el("p", { class: "try-again" }, button("Try again", () => void this.load())));
    }
  }

  /** @param {BookInfo[]} books */
  #draw(books) {
    if (books.length === 0) {
      show(this.#list, emptyShelf(() => this.#create()));
      return;
    }
    const cards = books.map((book) =>
      bookCard(book, { remove: () => this.#remove(book), rename: () => this.#rename(book) }),
    );
    show(this.#list, el("ul", { class: "books" }, cards));
  }

  /**
   * @param {string} heading
   * @param {string} yes
   * @param {{title?: string, part?: string}} [now]
   */
  async #fields(heading, yes, now = {}) {
    const answer = await ask(
      heading,
      [
        field("Show", el("input", { name: "title", required: true, maxlength: 200, value: now.title ?? "" })),
        field("Part", el("input", { name: "part", required: true, maxlength: 200, value: now.part ?? "" }), "As on the cover: Bass, Reed 2, Percussion …"),
      ],
      { yes },
    );
    return answer && { title: String(answer.get("title")).trim(), part: String(answer.get("part")).trim() };
  }

  async #create() {
    const fields = await this.#fields("A new book", "Add pages");
    if (!fields) return;
    try {
      /** @type {import("../core/api.js").Answered<BookInfo>} */
      const { data } = await call("POST", "/api/books", { body: fields });
      location.href = `/book.html?b=${encodeURIComponent(data.id)}`;
    } catch (error) {
      complain(error);
    }
  }

  /** @param {BookInfo} book */
  async #rename(book) {
    const fields = await this.#fields("Show and part", "Keep", book);
    if (!fields) return;
    try {
      await write(
        String(book.revision),
        (match) => call("PATCH", bookPath(book.id), { body: fields, match }),
        async () => {
          /** @type {import("../core/api.js").Answered<BookInfo>} */
          const { data, revision } = await call("GET", bookPath(book.id));
          return data.title === book.title && data.part === book.part ? revision : undefined;
        },
      );
      await this.load();
    } catch (error) {
      if (isStale(error)) toast("Someone gave this book another name meanwhile. Look at it and try again.", { key: "stale" });
      else complain(error);
      if (isStale(error) || error instanceof Kept) await this.load();
    }
  }

  /** @param {BookInfo} book */
  async #remove(book) {
    const path = `/api/books/${encodeURIComponent(book.id)}`;
    try {
      await call("DELETE", path);
      await this.load();
      toast(`${book.title}, ${book.part} is in the bin.`, {
        action: {
          label: "Bring it back",
          run: () => call("POST", `${path}/restore`).then(() => this.load(), complain),
        },
      });
    } catch (error) {
      complain(error);
    }
  }
}

new Shelf().start();
