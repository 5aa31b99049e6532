import { bookPath, call } from "../core/api.js";
import { button, el, show } from "../core/dom.js";
import { complain } from "../core/toast.js";

/** @typedef {import("../core/types.js").EnginesAnswer} EnginesAnswer */

/** Other readers of music that the service was started with: each may read the book as a second reader. */
export class Engines {
  #path;
  node = el("div", { class: "second-engines", "aria-live": "polite" });

  /** @param {string} book */
  constructor(book) {
    this.#path = bookPath(book, "/engines");
  }

  /** Shows them; who may not ask one sees none. */
  async load() {
    /** @type {import("../core/api.js").Answered<EnginesAnswer>} */
    const { data } = await call("GET", this.#path).catch(() => ({ data: { engines: [] }, revision: "" }));
    this.#draw(data);
  }

  /** @param {EnginesAnswer} data */
  #draw({ engines, asked }) {
    if (engines.length === 0) return show(this.node);
    const reads = asked?.running === true;
    show(
      this.node,
      el("p", {
        class: "soft small",
        text: "Another reader of music can read the same pages. Where it reads something else, you are asked. It takes the place of a score attached here.",
      }),
      reads ? el("p", { class: "second-said", text: `${asked.name} is reading. It can take minutes; go on meanwhile.` }) : null,
      asked?.why ? el("p", { class: "second-said", text: `${asked.why}.` }) : null,
      el(
        "div",
        { class: "row" },
        engines.map((name) => button(`Read with ${name}`, () => void this.#ask(name), { disabled: reads })),
      ),
    );
  }

  /** @param {string} name */
  async #ask(name) {
    try {
      /** @type {import("../core/api.js").Answered<EnginesAnswer>} */
      const { data } = await call("POST", this.#path, { body: { name } });
      this.#draw(data);
    } catch (error) {
      complain(error);
      await this.load();
    }
  }
}
