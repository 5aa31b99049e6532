import { bookPath, call, upload } from "../core/api.js";
import { button, el, show } from "../core/dom.js";
import { complain, toast } from "../core/toast.js";
import { count } from "../core/words.js";

/** @typedef {{id: string, name: string, bars: number}} Part */
/** @typedef {{name: string, part: string, parts: Part[]}} Second */

/** A second reading of the same music: a score that settles doubts. */
export class SecondReading {
  #path;
  #bus;
  #revision = "";
  #choose = el("input", {
    type: "file",
    accept: ".musicxml,.xml,.mxl",
    class: "visually-hidden",
    id: "choose-second",
    tabindex: -1,
    "aria-label": "Choose a MusicXML file",
  });
  #body = el("div", { "aria-live": "polite" });
  node = el("details", { class: "card save", id: "second" }, el("summary", { text: "Second reading" }), this.#body, this.#choose);

  /**
   * @param {string} book
   * @param {import("../core/bus.js").EventBus} bus
   */
  constructor(book, bus) {
    this.#path = bookPath(book, "/second");
    this.#bus = bus;
    this.#choose.addEventListener("change", () => {
      const [file] = this.#choose.files ?? [];
      this.#choose.value = "";
      if (file) void this.#attach(file);
    });
  }

  async load() {
    const { data, revision } = await call("GET", this.#path);
    this.#take(data, revision);
  }

  /**
   * @param {{second?: Second}} data
   * @param {string} revision
   */
  #take(data, revision) {
    this.#revision = revision;
    const second = data.second;
    show(this.#body, ...(second ? this.#attached(second) : this.#none()));
  }

  #none() {
    return [
      el("p", {
        class: "soft small",
        text: "A MusicXML file of the same music (.musicxml or .mxl), for instance the director's score or what another program read. What it says of rests and bar numbers is weighed along with the pages; what you set stays. The file stays on this machine.",
      }),
      button("Attach a MusicXML file", () => this.#choose.click(), { id: "second-attach" }),
    ];
  }

  /** @param {Second} second */
  #attached(second) {
    const chosen = second.parts.find((p) => p.id === second.part);
    const said = chosen
      ? `${second.name}: the part ${named(chosen)} (${count(chosen.bars, "bar")}) is weighed along with the pages.`
      : `${second.name} has ${count(second.parts.length, "part")}. Choose this chair's; until then it is not used.`;
    const select = el(
      "select",
      { id: "second-part" },
      chosen ? null : el("option", { value: "", text: "Choose a part" }),
      second.parts.map((p) => el("option", { value: p.id, text: `${named(p)}, ${count(p.bars, "bar")}` })),
    );
    select.value = chosen ? chosen.id : "";
    select.addEventListener("change", () => void this.#save("PUT", { part: select.value }));
    return [
      el("p", { text: said }),
      second.parts.length > 1 ? el("label", { class: "row", for: "second-part" }, "This chair's part ", select) : null,
      el(
        "div",
        { class: "row" },
        button("Attach another file", () => this.#choose.click(), {}),
        button("Take it away", () => void this.#save("DELETE"), { id: "second-remove" }),
      ),
    ];
  }

  /** @param {File} file */
  async #attach(file) {
    try {
      const data = await upload(this.#path, [file], () => {}, this.#revision);
      this.#take(data, String(data.revision));
      this.#bus.emit("uploaded", undefined);
    } catch (error) {
      await this.#failed(error);
    }
  }

  /**
   * @param {string} method
   * @param {any} [body]
   */
  async #save(method, body) {
    try {
      const { data, revision } = await call(method, this.#path, { body, match: this.#revision });
      this.#take(data, revision);
      this.#bus.emit("uploaded", undefined);
    } catch (error) {
      await this.#failed(error);
    }
  }

  /** @param {any} error */
  async #failed(error) {
    if (error.stale) {
      toast("Someone changed the book meanwhile. Try again.", { key: "second" });
      await this.load().catch(complain);
    } else complain(error);
  }
}

/** @param {Part} part */
function named(part) {
  return part.name || part.id;
}
