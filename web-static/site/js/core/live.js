import { deskId, heardHere, lineOpen } from "./here.js";
import { keepAgain } from "./keep.js";

/** After these what is kept for a night without the service is not what the service has. */
const CHANGES_PLAN = ["map", "plan", "settings", "marks"];

/** Listens to a book's live events, and says when the line is lost and found. */
export class LiveBook {
  /** @type {EventSource} */
  #source;
  #lost = false;

  /**
   * @param {string} url
   * @param {import("./bus.js").EventBus<import("./types.js").LiveEvents>} bus gets `live:job`, `live:page`, `live:map`, `live:plan`, `live:settings`, `live:marks`, `live:edition`, `live:share`, `live:second`,
   *     `live:lost`, `live:found`
   */
  constructor(url, bus) {
    this.#source = new EventSource(`${url}?desk=${deskId()}`);
    for (const name of /** @type {const} */ (["job", "page", "map", "plan", "settings", "marks", "edition", "share", "second"])) {
      this.#source.addEventListener(name, (event) => {
        if (CHANGES_PLAN.includes(name)) keepAgain();
        try {
          bus.emit(`live:${name}`, JSON.parse(event.data));
        } catch {
          // A broken event is dropped; the next one or a reload brings the truth.
        }
      });
    }
    // what happened meanwhile is not known any more
    this.#source.addEventListener("reset", () => bus.emit("live:found"));
    this.#source.addEventListener("here", (event) => {
      try {
        heardHere(JSON.parse(event.data));
      } catch {
        // as above
      }
    });
    this.#source.addEventListener("error", () => {
      // a line that was refused is not opened again: whoever listens finds out why
      if (!this.#lost || this.#source.readyState === EventSource.CLOSED) {
        this.#lost = true;
        bus.emit("live:lost");
      }
    });
    this.#source.addEventListener("open", () => {
      lineOpen();
      if (this.#lost) {
        this.#lost = false;
        bus.emit("live:found");
      }
    });
    addEventListener("pagehide", () => this.#source.close());
  }
}
