import { button, el, show } from "../core/dom.js";
import { CORRECTORS } from "../core/may.js";

/** @typedef {import("../core/types.js").Job} Job */

/** Shows how far the reading is. */
export class JobBar {
  node = el("section", { class: "job", "aria-label": "Reading", "aria-live": "polite" });
  #fill = el("span");
  #text = el("p");
  #bar = el("div", { class: "meterbar", role: "progressbar", "aria-label": "Pages read", "aria-valuemin": 0 }, this.#fill);
  /** @type {HTMLButtonElement} */
  #skip;
  #shown = "";
  /** Where the reading stood when this page first heard of it. @type {{job: string, done: number, at: number}|undefined} */
  #since;

  /** @param {() => void} skip gives up the page being read */
  constructor(skip) {
    this.#skip = button("Skip this page", skip, { class: "btn btn-quiet", id: "skip-page", ...CORRECTORS, title: "Gives up the page being read; it can be read again later" });
  }

  /**
   * @param {Job} [job]
   * @param {number} [now] milliseconds
   */
  draw(job, now = performance.now()) {
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
    const text = [job.text || "Waiting to read …", this.#left(job, now)].filter(Boolean).join(" · ");
    if (this.#shown !== text) {
      this.#shown = text;
      this.#text.textContent = text;
    }
    this.#skip.hidden = job.state !== "running" || job.done >= job.of;
    if (!this.#bar.isConnected) show(this.node, this.#text, this.#bar, this.#skip);
  }

  /**
   * How long it still takes, by how long the pages before took; nothing until one was read in sight.
   *
   * @param {Job} job
   * @param {number} now
   */
  #left(job, now) {
    if (this.#since?.job !== job.id || job.done < this.#since.done) this.#since = { job: job.id, done: job.done, at: now };
    const read = job.done - this.#since.done;
    if (read < 1 || job.done >= job.of) return "";
    const seconds = (((now - this.#since.at) / read) * (job.of - job.done)) / 1000;
    return seconds < 60 ? "less than a minute left" : `about ${Math.round(seconds / 60)} min left`;
  }
}
