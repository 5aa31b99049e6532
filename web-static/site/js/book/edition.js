import { bookPath, call, isStale, read } from "../core/api.js";
import { button, el, show } from "../core/dom.js";
import { CORRECTORS } from "../core/may.js";
import { who } from "../core/store.js";
import { complain, toast } from "../core/toast.js";
import { count, dayText } from "../core/words.js";

/** @typedef {import("../core/types.js").EditionList} EditionList */

/** Which checked map other programs read, and whether the book has moved on since. */
export class EditionLine {
  #book;
  /** @type {EditionList|undefined} */
  #list;
  node = el("div", { "id": "edition", "class": "edition", "aria-live": "polite" });

  /** @param {string} book */
  constructor(book) {
    this.#book = book;
  }

  async load() {
    this.#list = await read(this.#book, "/editions");
    this.#draw(this.#list);
  }

  /** @param {EditionList} list */
  #draw(list) {
    const [latest] = list.editions;
    const moved = !latest || list.changedSince === true || (list.correctionsSince ?? 0) > 0;
    if (!latest && !list.checked) return show(this.node);
    const next = (latest?.number ?? 0) + 1;
    show(
      this.node,
      el(
        "section",
        { "class": "card", "aria-label": "For other programs" },
        el(
          "div",
          { class: "row" },
          el("span", { id: "edition-said", text: said(list) }),
          list.checked && moved ? button(`Make edition ${next}`, () => void this.#make(), { id: "edition-make", class: "btn", ...CORRECTORS }) : null,
        ),
        el("p", { class: "soft small", text: explained(list, moved, next) }),
      ),
    );
  }

  async #make() {
    try {
      /** @type {import("../core/api.js").Answered<{edition: import("../core/types.js").Edition, fresh: boolean}>} */
      const { data } = await call("POST", bookPath(this.#book, "/editions"), { body: { who: who() }, match: String(this.#list?.revision ?? "") });
      toast(data.fresh ? `Edition ${data.edition.number} is made.` : `Nothing is different: it is still edition ${data.edition.number}.`, { key: "edition" });
    } catch (error) {
      if (!isStale(error)) return complain(error);
      toast("Someone changed the book meanwhile. Look at it and try again.", { key: "stale" });
    }
    await this.load().catch(complain);
    document.getElementById("edition-make")?.focus();
  }
}

/** @param {EditionList} list */
function said({ editions, correctionsSince = 0, changedSince }) {
  const [latest] = editions;
  if (!latest) return "This book was checked before editions had numbers.";
  const since = correctionsSince > 0 ? `${count(correctionsSince, "correction")} since` : changedSince ? "the book was changed since" : "nothing has changed since";
  return `Edition ${latest.number}, checked ${dayText(latest.madeAt.slice(0, 10))}; ${since}.`;
}

/**
 * @param {EditionList} list
 * @param {boolean} moved
 * @param {number} next
 */
function explained({ checked, editions }, moved, next) {
  if (editions.length === 0) return "An edition is the checked map under a number. Other programs read it, and it stays as it was whatever is corrected later.";
  if (!moved) return "Other programs read this edition. It stays as it is, whatever is corrected later.";
  return checked ? `Other programs read edition ${next - 1} until you make another one.` : `Other programs read edition ${next - 1} until all pages are checked again; that makes edition ${next}.`;
}
