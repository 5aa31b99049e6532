/** The two tools that wait for the page to be touched: a new barline, a missed line of music. */
export class Tools {
  #stage;
  #changed;

  /**
   * @param {import("./stage.js").Stage} stage
   * @param {(text: string) => void} changed told what to do next, or nothing
   */
  constructor(stage, changed) {
    this.#stage = stage;
    this.#changed = changed;
  }

  get active() {
    return this.#stage.adding || this.#stage.drawing;
  }

  /** Takes up the barline, or lays it down. */
  barline() {
    if (this.#stage.adding) return this.leave();
    this.leave();
    this.#stage.adding = true;
    this.#say("Tap where the barline goes.");
    this.#stage.focus();
  }

  /** Takes up the frame for a line of music. */
  line() {
    this.leave();
    this.#stage.drawing = true;
    this.#say("Draw over the line of music.");
  }

  leave() {
    this.#stage.adding = false;
    this.#stage.drawing = false;
    this.#say("");
  }

  /** @param {string} text */
  #say(text) {
    this.#stage.note(text);
    this.#changed(text);
  }
}
