import { bookPath, call } from "../core/api.js";
import { ask, field } from "../core/dialog.js";
import { button, el, show } from "../core/dom.js";
import { who } from "../core/store.js";
import { complain } from "../core/toast.js";

/** @typedef {"phone"|"reader"|"corrector"|"owner"} Role */
/** @typedef {{id: string, as: Role, name: string, last: string, links: string[]}} Link `last` is the last day (ISO 8601) */
/** @typedef {{possible: boolean, open: Link[]}} Sharing */
/** @typedef {{at: string, who: string, owner: boolean, page: number, what: "image"|"crop"|"sheets"|"pack"}} Look `page` is 0 for several */

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
  #looks = el("details", { class: "share-open", id: "share-looks", on: { toggle: () => void this.#look() } }, el("summary", {}, "Who looked at the pages"));
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
      this.#looks,
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

  /** Shows who was given pictures, when the list is unfolded. */
  async #look() {
    if (!this.#looks.open) return;
    try {
      const { looks } = /** @type {{looks: Look[]}} */ ((await call("GET", bookPath(this.#book, "/seen"))).data);
      this.#looks.querySelector("ul, p")?.remove();
      this.#looks.append(looks.length ? el("ul", { class: "share-looks" }, lines(looks).map((text) => el("li", { text }))) : el("p", { class: "soft small", text: "Nobody yet." }));
    } catch (error) {
      complain(error);
    }
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
      el("summary", {}, el("span", { class: "share-name" }, el("b", { text: name }), el("span", { class: "soft", text: `${MAY[as].does} · until ${shown(last)}` }))),
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

/**
 * One line for each person and day, the last first.
 *
 * @param {Look[]} looks newest first
 */
function lines(looks) {
  /** @type {Map<string, {head: string, pages: Set<number>, more: Set<string>}>} */
  const days = new Map();
  for (const { at, who: name, owner, page, what } of looks) {
    const then = new Date(at);
    const key = `${name} ${owner} ${then.toDateString()}`;
    const time = then.toLocaleTimeString("en-GB", { hour: "2-digit", minute: "2-digit" });
    const day = days.get(key) ?? { head: `${owner ? "You" : name}, ${dated(then)}, last at ${time}: `, pages: new Set(), more: new Set() };
    days.set(key, day);
    if (what === "sheets") day.more.add("turn slips with pieces of pages");
    else if (what === "pack") day.more.add("the book in one file, with its pictures");
    else if (page > 0) day.pages.add(page);
    else day.more.add("pages that have been taken out");
  }
  return [...days.values()].map(({ head, pages, more }) => {
    const all = [...pages].sort((a, b) => a - b);
    const seen = all.length > 0 ? [`${all.length > 1 ? "pages" : "page"} ${runs(all)}`] : [];
    return head + [...seen, ...more].join("; ");
  });
}

/** @param {number[]} pages in order @returns {string} "1 to 4, 7" */
function runs(pages) {
  /** @type {[number, number][]} */
  const all = [];
  for (const page of pages) {
    const last = all.at(-1);
    if (last && last[1] === page - 1) last[1] = page;
    else all.push([page, page]);
  }
  return all.map(([from, to]) => (from === to ? String(from) : `${from} to ${to}`)).join(", ");
}

/** @param {Date} day */
function dated(day) {
  return day.toLocaleDateString("en-GB", { day: "numeric", month: "long" });
}

/** @param {number} ahead @returns {string} the day so many days from today, as a date field has it */
function day(ahead) {
  const now = new Date();
  const then = new Date(Date.UTC(now.getFullYear(), now.getMonth(), now.getDate() + ahead));
  return then.toISOString().slice(0, 10);
}

/** @param {string} iso @returns {string} as a person writes a day */
function shown(iso) {
  return dated(new Date(`${iso}T12:00:00`));
}
