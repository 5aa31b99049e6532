import { el, show } from "../core/dom.js";

/** @typedef {import("../core/types.js").Job} Job */

/** Shows how far the reading is. */
export class JobBar {
  node = el("section", { class: "job", "aria-label": "Reading", "aria-live": "polite" });
  #fill = el("span");
  #text = el("p");
  #bar = el("div", { class: "meterbar", role: "progressbar", "aria-label": "Pages read", "aria-valuemin": 0 }, this.#fill);
  #shown = "";

  /** @param {Job} [job] */
  draw(job) {
    if (!job || job.state === "done") {
      this.#shown = "";
      show(this.node);
      return;
    }
    if (job.state === "failed") {
      this.#shown = "";
      show(this.node, el("p", { class: "refused", text: job.text || "The reading stopped. Add the pages again." }));
      return;
    }
    const share = job.of > 0 ? job.done / job.of : 0;
    this.#fill.style.width = `${Math.max(3, Math.round(share * 100))}%`;
    this.#bar.setAttribute("aria-valuenow", String(job.done));
    this.#bar.setAttribute("aria-valuemax", String(job.of));
    const text = job.text || "Waiting to read …";
    if (this.#shown !== text) {
      this.#shown = text;
      this.#text.textContent = text;
    }
    if (!this.#bar.isConnected) show(this.node, this.#text, this.#bar);
  }
}
