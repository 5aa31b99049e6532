import { ApiError, bookPath, call, isStale, read, upload } from "../core/api.js";
import { button, el, show } from "../core/dom.js";
import { icon } from "../core/icons.js";
import { OWNERS } from "../core/may.js";
import { complain, toast } from "../core/toast.js";
import { count } from "../core/words.js";
import { Engines } from "./engines.js";

/** @typedef {import("../core/types.js").Second} Second */
/** @typedef {import("../core/types.js").SecondAnswer} SecondAnswer */
/**
 * @template T
 * @typedef {import("../core/api.js").Answered<T>} Answered
 */

/** A second reading of the same music: a score that settles doubts. */
export class SecondReading {
  #book;
  #path;
  #bus;
  #revision = "";
  /** What the service had when it was last shown. */
  #seen = "";
  #choose = el("input", {
    type: "file",
    accept: ".musicxml,.xml,.mxl",
    class: "visually-hidden",
    id: "choose-second",
    tabindex: -1,
    "aria-label": "Choose a MusicXML file",
  });
  #body = el("div", { "aria-live": "polite" });
  #engines;
  node = el("details", { class: "card save", id: "second", ...OWNERS }, el("summary", { text: "The director's score as a second reading" }), this.#body, this.#choose);

  /**
   * @param {string} book
   * @param {import("../core/bus.js").EventBus<import("../core/types.js").BookEvents>} bus
   */
  constructor(book, bus) {
    this.#path = bookPath(book, "/second");
    this.#book = book;
    this.#bus = bus;
    this.#engines = new Engines(book);
    this.node.append(this.#engines.node);
    bus.on("live:second", () => void this.load().catch(complain));
    this.#choose.addEventListener("change", () => {
      const [file] = this.#choose.files ?? [];
      this.#choose.value = "";
      if (file) void this.#attach(file);
    });
  }

  async load() {
    /** @type {Answered<SecondAnswer>} */
    const { data, revision } = await call("GET", this.#path);
    this.#take(data, revision);
    await this.#engines.load();
  }

  /**
   * @param {SecondAnswer} data
   * @param {string} revision
   */
  #take(data, revision) {
    this.#revision = revision;
    const second = data.second;
    this.#seen = JSON.stringify(second);
    this.#engines.beside(second?.name ?? "");
    show(this.#body, ...(second ? this.#attached(second) : this.#none()));
  }

  #none() {
    return [
      el("p", {
        class: "soft small",
        text: "A MusicXML file of the same music (.musicxml or .mxl), for instance the director's score or what another program read. What it says of rests and bar numbers is weighed along with the pages; what you set stays. The file is kept with the book.",
      }),
      button("Attach a MusicXML file", () => this.#choose.click(), { id: "second-attach" }),
    ];
  }

  /** @param {Second} second */
  #attached(second) {
    const chosen = second.parts.find((p) => p.id === second.part);
    const said = chosen
      ? `Its part ${named(chosen)}, ${count(chosen.bars, "bar")}, is weighed along with the pages.`
      : `It has ${count(second.parts.length, "part")}. Choose this chair's; until then it is not used.`;
    const select = el(
      "select",
      { id: "second-part" },
      chosen ? null : el("option", { value: "", text: "Choose a part" }),
      second.parts.map((p) => el("option", { value: p.id, text: `${named(p)}, ${count(p.bars, "bar")}` })),
    );
    select.value = chosen ? chosen.id : "";
    select.addEventListener("change", () => void this.#save("PUT", { part: select.value }));
    return [
      el("p", { class: "second-name" }, icon("tick"), el("b", { text: second.name })),
      el("p", { class: "second-said", text: said }),
      second.parts.length > 1 ? el("label", { class: "field", for: "second-part" }, el("span", { class: "field-label", text: "This chair's part" }), select) : null,
      el(
        "div",
        { class: "row" },
        button("Attach another file", () => this.#choose.click(), {}),
        button("Take it away", () => void this.#save("DELETE"), { id: "second-remove" }),
      ),
    ];
  }

  /** @param {File} file */
  #attach(file) {
    return this.#weigh(async () => {
      /** @type {SecondAnswer} */
      const data = await upload(this.#path, [file], () => {}, this.#revision);
      this.#take(data, String(data.revision));
    });
  }

  /**
   * @param {string} method
   * @param {{part: string}} [body]
   */
  #save(method, body) {
    return this.#weigh(async () => {
      /** @type {Answered<SecondAnswer>} */
      const { data, revision } = await call(method, this.#path, { body, match: this.#revision });
      this.#take(data, revision);
    });
  }

  /**
   * Settling a whole book again takes a moment; meanwhile nothing else is asked of it.
   *
   * @param {() => Promise<void>} step
   */
  async #weigh(step) {
    const before = await this.#open();
    this.#body.setAttribute("aria-busy", "true");
    for (const control of this.#body.querySelectorAll("button, select")) control.setAttribute("disabled", "");
    this.#body.prepend(el("p", { class: "soft", text: "Weighing it with the pages …" }));
    try {
      await this.#again(step);
      this.#bus.emit("uploaded");
      const now = await this.#open();
      toast(now === before ? `Done: still ${count(now, "doubt")}.` : `Done: ${count(now, "doubt")} now, ${before} before.`, { kind: "good", key: "second" });
    } catch (error) {
      await this.#failed(error);
    } finally {
      this.#body.removeAttribute("aria-busy");
    }
  }

  /**
   * Tries a step again when only the pages' reading came in between.
   *
   * @param {() => Promise<void>} step
   */
  async #again(step) {
    for (let left = 3; ; left--) {
      await this.#look();
      try {
        return await step();
      } catch (error) {
        if (!isStale(error) || left === 0) throw error;
      }
    }
  }

  /** A reading that ended meanwhile is no reason to ask again; another score is. */
  async #look() {
    /** @type {Answered<SecondAnswer>} */
    const { data, revision } = await call("GET", this.#path);
    if (JSON.stringify(data.second) !== this.#seen) throw new ApiError(412, "another score");
    this.#revision = revision;
  }

  async #open() {
    const { doubts } = await read(this.#book, "/doubts").catch(() => ({ doubts: [] }));
    return doubts.filter((d) => d.severity !== "info").length;
  }

  /** @param {unknown} error */
  async #failed(error) {
    if (isStale(error)) toast("Someone changed the book meanwhile. Try again.", { key: "second" });
    else complain(error);
    await this.load().catch(complain);
  }
}

/** @param {import("../core/types.js").ScorePart} part */
function named(part) {
  return part.name || part.id;
}
