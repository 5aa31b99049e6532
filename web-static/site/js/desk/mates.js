import { svg } from "../core/dom.js";
import { at, initials, others, whenElsewhere, whereIs } from "../core/here.js";

/** @typedef {import("../core/types.js").Bar} Bar */

/** Shows in the page which bars others have chosen, and tells them which is chosen here. */
export class MateMarks {
  #page;
  /** @type {{page: number, bars: Bar[], space: number}} */
  #seen = { page: 0, bars: [], space: 20 };
  #said = "";

  /** @param {Element} page where bars are drawn, each with `data-bar` */
  constructor(page) {
    this.#page = page;
    whenElsewhere(() => this.#draw());
  }

  /**
   * @param {number} page that is shown
   * @param {Bar[]} bars of it
   * @param {number} space of its staves
   * @param {string} [chosen] id of a bar
   */
  show(page, bars, space, chosen = "") {
    this.#seen = { page, bars, space };
    at(page, chosen);
    this.#draw();
  }

  #draw() {
    const { page, bars, space } = this.#seen;
    const here = others().filter((desk) => desk.page === page && desk.bar);
    const now = JSON.stringify([here, page]);
    const drawn = this.#page.querySelectorAll(".mate-bar");
    if (now === this.#said && drawn.length === here.length) return;
    this.#said = now;
    for (const old of drawn) old.remove();
    for (const desk of here) {
      const bar = bars.find((b) => b.id === desk.bar);
      const group = this.#page.querySelector(`[data-bar="${CSS.escape(desk.bar)}"]`);
      if (!bar || !group) continue;
      const [x, y] = bar.outline[0];
      group.append(
        svg(
          "g",
          { class: "mate-bar" },
          svg("title", { text: whereIs(desk) }),
          svg("circle", { cx: x + 1.4 * space, cy: y - 2 * space, r: 1.9 * space }),
          svg("text", { "x": x + 1.4 * space, "y": y - 1.5 * space, "font-size": 1.45 * space, "text-anchor": "middle", "text": initials(desk.who) }),
        ),
      );
    }
  }
}
