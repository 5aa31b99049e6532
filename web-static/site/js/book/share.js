import { bookPath, call } from "../core/api.js";
import { ask, field } from "../core/dialog.js";
import { button, el, show } from "../core/dom.js";
import { who } from "../core/store.js";
import { complain } from "../core/toast.js";

/** @typedef {"phone"|"reader"|"corrector"|"owner"} Role */
/** @typedef {{id: string, as: Role, name: string, last: string, links: string[]}} Link `last` is the last day (ISO 8601) */
/** @typedef {{possible: boolean, open: Link[]}} Sharing */

const MAY = /** @type {Record<Role, {does: string, may: string}>} */ ({
  phone: { does: "photographs pages", may: "Whoever has this address can add pages to this book, photograph one again and see how each was read: nothing else, and no other book." },
  reader: { does: "reads", may: "Whoever has this address sees this book with its pages, its plan and its sheets, and changes nothing." },
  corrector: { does: "corrects", may: "Whoever has this address sees this book with its pages and can correct it and its changes as you can. Taking pages or the book away, other books and letting others in stay with you." },
  owner: { does: "may do everything", may: "Whoever has this address can do with this book what you can: take pages out, save it with its pictures, put it in the bin, let others in. No other book." },
});

const CARE = "What is sent can be read by others on the same net: share on one you trust, and end links that aren't needed any more. Pages of a rented book are someone's property: the hire agreement, local rules and the people in charge decide who may photograph and see them.";

/** What a section mate needs through rehearsals and a run. */
const DAYS = 14;

/** Opens this book to a phone or others of the local net, and closes it again. */
export class Sharer {
  #book;
  #inside = el("div");
  /** The link that was made last: its code is shown. */
  #fresh = "";
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

  /** @param {{as: Role, name: string, last?: string}} invite */
  async #letIn(invite) {
    try {
      const sharing = /** @type {Sharing} */ ((await call("POST", this.#path, { body: invite })).data);
      this.#fresh = sharing.open.at(-1)?.id ?? "";
      this.#draw(sharing);
      document.getElementById(`open-${this.#fresh}`)?.querySelector("summary")?.focus();
    } catch (error) {
      complain(error);
    }
  }

  /** @param {string} [link] one of them; all of them unless said */
  async #end(link) {
    try {
      this.#draw(/** @type {Sharing} */ ((await call("DELETE", link ? `${this.#path}/${link}` : this.#path)).data));
      /** @type {HTMLElement|null} */ (this.node.querySelector("button"))?.focus();
    } catch (error) {
      complain(error);
    }
  }

  /** Asks who comes, for what and how long. */
  async #asked() {
    const roles = /** @type {Role[]} */ (["corrector", "reader", "owner"]);
    const may = el("p", { class: "soft small", text: MAY.corrector.may });
    const as = el("select", { name: "as", on: { change: () => (may.textContent = MAY[/** @type {Role} */ (as.value)].may) } }, roles.map((role) => el("option", { value: role, text: MAY[role].does })));
    const answer = await ask(
      "Let somebody in",
      [
        field("Who is it for?", el("input", { name: "name", maxlength: 60, autocomplete: "off" }), "So that you know later whose link this is."),
        field("What may they do?", as),
        may,
        field("Until (the last day)", el("input", { name: "last", type: "date", required: true, value: day(DAYS), min: day(0), max: day(365) })),
      ],
      { yes: "Make the link" },
    );
    if (answer) await this.#letIn({ as: /** @type {Role} */ (answer.get("as")), name: String(answer.get("name") ?? ""), last: String(answer.get("last") ?? "") });
  }

  /** @param {Sharing} sharing */
  #draw({ possible, open }) {
    this.node.hidden = false;
    const focused = this.node.contains(document.activeElement) ? document.activeElement?.id : undefined;
    const unfolded = new Set([...this.node.querySelectorAll("details[open]")].map((d) => d.id));
    this.node.open ||= possible;
    show(
      this.#inside,
      possible ? null : el("p", { class: "soft small" }, "Your phone's camera can put pages in here, and a section mate can work on the book beside you. Start barmap so: ", el("code", { text: "./barmap serve --share" })),
      open.map((link) => this.#link(link, open.length === 1 || link.id === this.#fresh || unfolded.has(`open-${link.id}`))),
      possible ? el("p", { class: "soft small", text: CARE }) : null,
      possible
        ? el(
            "div",
            { class: "row" },
            button("Let your phone in", () => void this.#letIn({ as: "phone", name: who() ? `${who()}'s phone` : "Your phone", last: day(1) }), { class: "btn", id: "share-phone" }),
            button("Let somebody else in …", () => void this.#asked(), { class: "btn", id: "share-mate" }),
            open.length > 1 ? button("End all links", () => void this.#end(), { class: "btn btn-bad", id: "share-end" }) : null,
          )
        : null,
    );
    if (focused !== undefined) /** @type {HTMLElement|null} */ ((focused && document.getElementById(focused)) || this.node.querySelector("button, summary"))?.focus();
  }

  /**
   * @param {Link} link
   * @param {boolean} unfolded
   */
  #link({ id, as, name, last, links }, unfolded) {
    const code = (/** @type {number} */ at) => el("img", { class: "share-code", src: `${this.#path}/${id}?at=${at}`, width: 190, height: 190, alt: "The address as a code for the camera", loading: "lazy" });
    return el(
      "details",
      { "class": "share-open", "id": `open-${id}`, "data-as": as, "open": unfolded },
      el("summary", {}, el("b", { text: name }), el("span", { class: "soft", text: `${MAY[as].does} · until ${shown(last)}` })),
      el(
        "div",
        { class: "share-body" },
        links.slice(0, 1).map((_, at) => code(at)),
        el(
          "div",
          {},
          el("p", { class: "small", text: MAY[as].may }),
          links.map((address) => el("p", { class: "share-link" }, el("code", { text: address }))),
          button("End this link", () => void this.#end(id), { "class": "btn btn-bad share-stop", "aria-label": `End the link for ${name}` }),
        ),
      ),
    );
  }
}

/** @param {number} ahead @returns {string} the day so many days from today, as a date field has it */
function day(ahead) {
  const now = new Date();
  const then = new Date(Date.UTC(now.getFullYear(), now.getMonth(), now.getDate() + ahead));
  return then.toISOString().slice(0, 10);
}

/** @param {string} iso @returns {string} as a person writes a day */
function shown(iso) {
  return new Date(`${iso}T12:00:00`).toLocaleDateString("en-GB", { day: "numeric", month: "long" });
}
