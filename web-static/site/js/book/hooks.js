import { bookPath, call, get } from "../core/api.js";
import { ask, field } from "../core/dialog.js";
import { button, el, show } from "../core/dom.js";
import { complain, toast } from "../core/toast.js";
import { count, when } from "../core/words.js";

/** @typedef {"checked"|"changed"|"plan-changed"} Told */
/** @typedef {{id: string, book?: string, address: string, events: Told[], madeAt: string, off?: string, failingSince?: string}} Hook */
/** @typedef {{id: string, event: Told|"tried", edition?: number, revision: number, madeAt: string, state: "waiting"|"sending"|"sent"|"dead", tries: number, answer: string, triedAt?: string}} Delivery */

const EVENTS = /** @type {Record<Told, string>} */ ({
  "checked": "the book was checked: there is a new edition",
  "changed": "the map was changed",
  "plan-changed": "the show's changes or the settings were changed",
});

const EVENT = /** @type {Record<Delivery["event"], string>} */ ({ "checked": "checked", "changed": "changed", "plan-changed": "plan changed", "tried": "tried out" });

const MAY = "An address that another program gives you. It is told that something happened, with numbers and addresses only: no page, no title and no music. It asks for the rest with a key of its own.";

const ONCE = "Give it to the program at that address: by it the program can tell that barmap is who calls. It is shown this once; when it is lost, remove the address and register it again.";

/** Who is told of what happens to this book; for who has the shelf. */
export class Hooks {
  #book;
  #body = el("div");
  node = el("details", { class: "card save", id: "hooks", hidden: true }, el("summary", { text: "Tell another program what happens" }), this.#body);

  /** @param {string} book */
  constructor(book) {
    this.#book = book;
    this.node.addEventListener("toggle", () => {
      if (this.node.open) void this.load();
    });
  }

  get #own() {
    return bookPath(this.#book, "/hooks");
  }

  /** Shows them; nothing to somebody who is a guest here. */
  async load() {
    try {
      const own = await this.#of(this.#own);
      // those of all books are the business of who has the folder
      const all = await this.#of("/api/hooks").catch(() => undefined);
      this.node.hidden = false;
      if (this.node.open) await this.#draw(own, all);
    } catch {
      this.node.hidden = true;
    }
  }

  /** @param {string} path @returns {Promise<Hook[]>} */
  async #of(path) {
    return (await get(path)).hooks;
  }

  /**
   * @param {Hook[]} own
   * @param {Hook[]|undefined} all
   */
  async #draw(own, all) {
    const unfolded = new Set([...this.node.querySelectorAll("details[open]")].map((d) => d.id));
    const cards = await Promise.all(
      [...own, ...(all ?? [])].map(async (hook) => {
        const path = `${hook.book ? this.#own : "/api/hooks"}/${hook.id}`;
        return this.#hook(hook, path, (await get(path)).deliveries, unfolded.has(`hook-${hook.id}`));
      }),
    );
    show(
      this.#body,
      el("p", { class: "soft small", text: MAY }),
      cards,
      el("div", { class: "row" }, button("Register an address …", () => void this.#add(all !== undefined), { id: "hook-add", class: "btn" })),
    );
  }

  /**
   * @param {Hook} hook
   * @param {string} path
   * @param {Delivery[]} deliveries newest first
   * @param {boolean} open
   */
  #hook(hook, path, deliveries, open) {
    const dead = deliveries.filter((d) => d.state === "dead");
    const again = (/** @type {Delivery} */ d) => void this.#step("POST", `${path}/deliveries/${d.id}/again`, undefined, "It is sent again.");
    return el(
      "details",
      { class: "share-open hook", id: `hook-${hook.id}`, open },
      el("summary", {}, el("span", { class: "share-name" }, el("b", { text: hook.address }), el("span", { class: hook.off || hook.failingSince ? "hook-bad" : "soft", text: state(hook, deliveries) }))),
      el(
        "div",
        { class: "share-body" },
        el(
          "div",
          {},
          el("p", { class: "small", text: `${hook.book ? "For this book" : "For all books"}, when ${hook.events.map((e) => EVENTS[e]).join("; when ")}.` }),
          dead.length ? el("p", { class: "small", text: `${count(dead.length, "message")} did not arrive and ${dead.length === 1 ? "was" : "were"} given up:` }) : null,
          el("ul", { class: "hook-list" }, dead.map((d) => el("li", {}, el("span", { text: `${line(d)}: ${d.answer}` }), button("Send again", () => again(d), { "aria-label": `Send again: ${line(d)}`, "disabled": hook.off !== undefined })))),
          el(
            "div",
            { class: "row" },
            hook.off ? null : button("Try it", () => void this.#step("POST", `${path}/try`, undefined, "It is being told; look here again in a moment."), {}),
            hook.off
              ? button("Turn it on", () => void this.#step("PATCH", path, { on: true }, ""), { class: "btn" })
              : button("Turn it off", () => void this.#step("PATCH", path, { on: false }, ""), { class: "btn" }),
            button("Remove it", () => void this.#step("DELETE", path, undefined, "It is told nothing any more."), { class: "btn btn-bad" }),
          ),
        ),
      ),
    );
  }

  /**
   * @param {string} method
   * @param {string} path
   * @param {unknown} body
   * @param {string} done
   */
  async #step(method, path, body, done) {
    try {
      await call(method, path, { body });
      if (done) toast(done, { key: "hook" });
    } catch (error) {
      complain(error);
    }
    await this.load();
  }

  /** @param {boolean} ofAll whether one of all books may be registered */
  async #add(ofAll) {
    const answer = await ask(
      "Tell another program",
      [
        field("Its address", el("input", { name: "address", type: "url", required: true, maxlength: 1000, placeholder: "https://", autocomplete: "off" })),
        el(
          "fieldset",
          { class: "hook-events" },
          el("legend", { text: "Tell it when" }),
          Object.entries(EVENTS).map(([event, text]) => el("label", {}, el("input", { type: "checkbox", name: "event", value: event, checked: true }), ` ${text}`)),
        ),
        ofAll ? field("Of which books?", el("select", { name: "of" }, el("option", { value: "this", text: "this book" }), el("option", { value: "all", text: "all books" }))) : el("span"),
      ],
      { yes: "Register it" },
    );
    if (!answer) return;
    try {
      const path = answer.get("of") === "all" ? "/api/hooks" : this.#own;
      /** @type {import("../core/api.js").Answered<{hook: Hook, secret: string}>} */
      const { data } = await call("POST", path, { body: { address: String(answer.get("address") ?? "").trim(), events: answer.getAll("event") } });
      await this.load();
      await ask("Its secret", [el("p", {}, el("code", { id: "hook-secret", class: "hook-secret", text: data.secret })), el("p", { text: ONCE })]);
    } catch (error) {
      complain(error);
    }
  }
}

/**
 * @param {Hook} hook
 * @param {Delivery[]} deliveries
 */
function state(hook, deliveries) {
  if (hook.off) return `${hook.off}.`;
  const waiting = deliveries.filter((d) => d.state === "waiting" || d.state === "sending").length;
  const arrived = deliveries.find((d) => d.state === "sent");
  if (hook.failingSince) return `Not reached since ${when(hook.failingSince)}; ${count(waiting, "message")} ${waiting === 1 ? "waits" : "wait"}.`;
  if (waiting) return `${count(waiting, "message")} ${waiting === 1 ? "waits" : "wait"}.`;
  return arrived?.triedAt ? `Told last ${when(arrived.triedAt)}.` : "Nothing was told yet.";
}

/** @param {Delivery} d */
function line(d) {
  return `${EVENT[d.event]}${d.edition ? `, edition ${d.edition}` : ""}, ${when(d.madeAt)}`;
}
