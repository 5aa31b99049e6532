import { bookPath, call } from "../core/api.js";
import { button, el, show } from "../core/dom.js";
import { complain } from "../core/toast.js";

/** @typedef {"phone"|"desk"} Role */
/** @typedef {{possible: boolean, open: {as: Role, links: string[]}[]}} Sharing */

const MAY = /** @type {Record<Role, {name: string, let: string, may: string}>} */ ({
  phone: { name: "Your phone", let: "Let your phone in", may: "Whoever has this address can add pages to this book, photograph one again and see how each was read: nothing else, and no other book." },
  desk: { name: "A section mate", let: "Let a section mate in", may: "Whoever has this address sees this book with its pages and can correct it and its changes as you can. Taking pages or the book away, other books and letting others in stay with you." },
});

const CARE = "What is sent can be read by others on the same net: share on one you trust, and end it when you are done; it also ends with the program. Pages of a rented book are someone's property: the hire agreement, local rules and the people in charge decide who may photograph and see them.";

/** Opens this book to a phone or a section mate of the local net, and closes it again. */
export class Sharer {
  #book;
  #inside = el("div");
  node = el("details", { class: "card save share", id: "share", hidden: true }, el("summary", { text: "From your phone, with a section mate" }), this.#inside);

  /** @param {string} book */
  constructor(book) {
    this.#book = book;
  }

  /** Shows whom the book is open to; nothing to somebody who is a guest here. */
  async load() {
    try {
      this.#draw(/** @type {Sharing} */ ((await call("GET", this.#path)).data));
    } catch {
      this.node.hidden = true;
    }
  }

  get #path() {
    return bookPath(this.#book, "/share");
  }

  /**
   * @param {"POST"|"DELETE"} method
   * @param {Role} [as]
   */
  async #step(method, as) {
    try {
      this.#draw(/** @type {Sharing} */ ((await call(method, this.#path, as ? { body: { as } } : {})).data));
      /** @type {HTMLElement|null} */ (this.node.querySelector(as ? `[data-as="${as}"]` : "button"))?.focus();
    } catch (error) {
      complain(error);
    }
  }

  /** @param {Sharing} sharing */
  #draw({ possible, open }) {
    this.node.hidden = false;
    const focused = this.node.contains(document.activeElement) ? document.activeElement?.id : undefined;
    const closed = /** @type {Role[]} */ (["phone", "desk"]).filter((as) => !open.some((o) => o.as === as));
    this.node.open ||= possible;
    show(
      this.#inside,
      possible ? null : el("p", { class: "soft small" }, "Your phone's camera can put pages in here, and a section mate can work on the book beside you. Start barmap so: ", el("code", { text: "./barmap serve --share" })),
      open.map((o) => opened(o.as, o.links, this.#path)),
      possible ? el("p", { class: "soft small", text: CARE }) : null,
      possible
        ? el(
            "div",
            { class: "row" },
            closed.map((as) => button(MAY[as].let, () => void this.#step("POST", as), { class: "btn", id: `share-${as}` })),
            open.length ? button("End sharing", () => void this.#step("DELETE"), { class: "btn btn-bad", id: "share-end" }) : null,
          )
        : null,
    );
    if (focused !== undefined) /** @type {HTMLElement|null} */ ((focused && document.getElementById(focused)) || this.node.querySelector("button, summary"))?.focus();
  }
}

/**
 * @param {Role} as
 * @param {string[]} links
 * @param {string} path of what is shared
 */
function opened(as, links, path) {
  // another picture whenever the address is another one
  const code = (/** @type {string} */ link, /** @type {number} */ at) => el("img", { "class": "share-code", "src": `${path}/${as}?at=${at}&of=${link.slice(-4)}`, "width": 190, "height": 190, "alt": "The address as a code for the camera" });
  return el(
    "section",
    { class: "share-open", "data-as": as, id: `open-${as}`, tabindex: -1, "aria-label": MAY[as].name },
    links.slice(0, 1).map(code),
    el("div", {}, el("h2", { text: MAY[as].name }), el("p", { class: "small", text: MAY[as].may }), links.map((link) => el("p", { class: "share-link" }, el("code", { text: link })))),
  );
}
