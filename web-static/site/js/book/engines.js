import { bookPath, call } from "../core/api.js";
import { confirm } from "../core/dialog.js";
import { button, el, show } from "../core/dom.js";
import { complain } from "../core/toast.js";

/** @typedef {import("../core/types.js").EnginesAnswer} EnginesAnswer */

/** Other readers of music that the service was started with: each may read the book as a second reader. */
export class Engines {
  #path;
  /** What is attached now. */
  #now = "";
  /** @type {EnginesAnswer} */
  #data = { engines: [] };
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

  /** @param {string} name of the second reading that is attached now; empty for none */
  beside(name) {
    this.#now = name;
    this.#draw(this.#data);
  }

  /** @param {EnginesAnswer} data */
  #draw(data) {
    this.#data = data;
    const { engines, asked } = data;
    if (engines.length === 0) return show(this.node);
    const reads = asked?.running === true;
    show(
      this.node,
      el("p", {
        class: "soft small",
        text: `Another reader of music can read the same pages. Where it reads something else, you are asked. ${this.#now ? `What it reads takes the place of ${this.#now}.` : ""}`,
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
    if (this.#now && this.#now !== name && !(await confirm(`Read with ${name}?`, `A book has one second reading at a time. What ${name} reads takes the place of ${this.#now}; what you set in the bars stays. To go back, attach ${this.#now} again.`, `Read with ${name}`))) return;
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
