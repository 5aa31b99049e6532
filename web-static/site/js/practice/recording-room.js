import { bookPath, call } from "../core/api.js";
import { every } from "../core/clock.js";
import { CommandStack } from "../core/commands.js";
import { button, el, show } from "../core/dom.js";
import { icon } from "../core/icons.js";
import { recall, remember, who } from "../core/store.js";
import { complain, toast } from "../core/toast.js";
import { numberName } from "../core/words.js";
import { stepAt, tempi } from "./taps.js";

/** @typedef {import("../shared/steps.js").BarStep} BarStep */
/** @typedef {import("./taps.js").Tap} Tap */

/** How far a place is moved at once, seconds. */
const NUDGE = 0.1;

/** A recording from the player's own disk, tied to the bars: each place has a key of its own, pressed when it is heard. */
export class RecordingRoom {
  #book;
  #follower;
  #stepsOf;
  /** @type {BarStep[]} */
  #steps = [];
  /** @type {Tap[]} */
  #taps = [];
  #undo = new CommandStack(200);
  #url = "";
  #number = el("select", { id: "recording-number", "aria-label": "Number" });
  #file = el("input", { id: "recording-file", type: "file", accept: "audio/*", "aria-label": "Recording" });
  #audio = el("audio", { controls: true });
  #next = el("p", { class: "now-about" });
  #list = el("div", { class: "places", role: "group", "aria-label": "Places" });
  #table = el("div");
  node;

  /**
   * @param {string} book
   * @param {import("../core/types.js").PlannedNumber[]} numbers
   * @param {(label: string) => BarStep[]} stepsOf
   * @param {import("./follow.js").Follower} follower
   */
  constructor(book, numbers, stepsOf, follower) {
    this.#book = book;
    this.#stepsOf = stepsOf;
    this.#follower = follower;
    this.#audio.volume = 0.4;
    show(this.#number, numbers.map((n) => el("option", { value: n.label, text: numberName(n) })));
    this.#number.addEventListener("change", () => this.#choose());
    this.#file.addEventListener("change", () => this.#load());
    for (const name of ["timeupdate", "seeked"]) this.#audio.addEventListener(name, () => this.#followNow());
    this.#audio.addEventListener("play", () => this.#watch());
    this.#audio.addEventListener("error", () => this.#audio.src && toast("This browser can't play that file.", { kind: "bad" }));
    this.node = el(
      "section",
      { class: "card", "aria-label": "Recording" },
      el("h2", { text: "With a recording" }),
      el("p", { class: "soft", text: "The file stays on this machine and is not sent anywhere, not even to barmap. Press each place when you hear it begin, in any order; move it earlier or later afterwards. Between two places the line follows, and the tempo is known." }),
      el("div", { class: "click-grid" }, el("label", { class: "field" }, el("span", { class: "field-label", text: "Number" }), this.#number), el("label", { class: "field" }, el("span", { class: "field-label", text: "Your recording" }), this.#file)),
      this.#audio,
      this.#follower.node,
      this.#next,
      this.#list,
      el("div", { class: "row" }, this.#last),
      this.#table,
    );
    if (numbers.length) this.#choose();
  }

  get #key() {
    return `taps.${this.#book}.${this.#number.value}`;
  }

  #choose() {
    this.#steps = this.#stepsOf(this.#number.value);
    this.#taps = recall(this.#key, /** @type {Tap[]} */ ([])).filter((t) => t.step < this.#steps.length);
    this.#undo = new CommandStack(200);
    this.#draw();
  }

  #load() {
    const file = this.#file.files?.[0];
    if (!file) return;
    if (this.#url) URL.revokeObjectURL(this.#url);
    this.#url = URL.createObjectURL(file);
    this.#audio.src = this.#url;
    this.#draw();
    this.#list.querySelector("button")?.focus();
  }

  /** The places: the start, each mark, the end. */
  #places() {
    return this.#steps.flatMap((s, i) => (i === 0 || s.mark || i === this.#steps.length - 1 ? [i] : []));
  }

  /** The first place after those that are set. */
  #nextPlace() {
    const last = this.#taps[this.#taps.length - 1]?.step ?? -1;
    return this.#places().find((i) => i > last);
  }

  /**
   * @param {number} step the place that begins
   * @param {number} time in the recording, seconds
   */
  async #setPlace(step, time) {
    const before = this.#taps;
    const after = [...before.filter((t) => t.step !== step), { time: Math.max(0, time), step }].sort((a, b) => a.step - b.step);
    await this.#undo.run({ text: "Place set", run: () => this.#set(after), undo: () => this.#set(before) });
  }

  /** @param {number} step the focus stays where the same place is drawn anew */
  #focus(step) {
    /** @type {HTMLElement|null} */ (this.#list.querySelector(`[data-step="${step}"]`))?.focus();
  }

  #last = button("Take the last one back", () => void this.#back(), { class: "btn" }, icon("undo"));

  async #back() {
    if (this.#undo.canUndo) await this.#undo.undo();
    else this.#set(this.#taps.slice(0, -1));
  }

  /** @param {Tap[]} taps */
  #set(taps) {
    this.#taps = taps;
    remember(this.#key, taps);
    this.#draw();
  }

  /** @param {number|undefined} next */
  #drawPlaces(next) {
    const set = new Map(this.#taps.map((t) => [t.step, t.time]));
    const off = !this.#audio.currentSrc && !this.#url;
    show(this.#list, this.#places().map((i) => {
      const step = this.#steps[i];
      const time = set.get(i);
      const press = () => void this.#setPlace(i, this.#audio.currentTime).then(() => this.#focus(i));
      const place = button("", press, { class: `btn place${i === next ? " place-next" : ""}`, "data-step": i, "aria-pressed": String(time !== undefined), disabled: off });
      place.append(el("span", { text: step.mark || `bar ${step.name}` }), el("small", { text: time !== undefined ? `${time.toFixed(1)} s` : step.mark ? `bar ${step.name}` : "not set" }));
      return place;
    }));
  }

  #draw() {
    const place = this.#nextPlace();
    const step = place === undefined ? undefined : this.#steps[place];
    this.#next.textContent = step ? `Next: ${step.mark ? `mark ${step.mark}, ` : ""}bar ${step.name}` : this.#steps.length ? "Every place is set." : "This number has no bars to play.";
    this.#drawPlaces(place);
    this.#last.disabled = this.#taps.length === 0 && !this.#undo.canUndo;
    const rows = tempi(this.#steps, this.#taps).map(({ tap, perMinute }) => {
      const at = this.#steps[tap.step];
      return el(
        "tr",
        {},
        el("th", { scope: "row", text: `${at.mark ? `${at.mark}, ` : ""}bar ${at.name}` }),
        el("td", {}, el("span", { text: `${tap.time.toFixed(1)} s ` }), button("Earlier", () => void this.#setPlace(tap.step, tap.time - NUDGE).then(() => this.#focus(tap.step)), { class: "btn" }), button("Later", () => void this.#setPlace(tap.step, tap.time + NUDGE).then(() => this.#focus(tap.step)), { class: "btn" })),
        el("td", { text: perMinute ? `${perMinute.toFixed(0)} a minute` : "" }),
        el("td", {}, perMinute ? button("Use this tempo", () => void this.#useTempo(at, perMinute), { class: "btn" }) : null),
      );
    });
    const known = tempi(this.#steps, this.#taps).filter(({ perMinute }) => perMinute);
    const all = known.length > 1 ? button(known.length === 2 ? "Use both tempi" : `Use all ${known.length} tempi`, () => void this.#useAll(), { class: "btn btn-main", id: "use-tempi" }) : null;
    show(
      this.#table,
      rows.length ? el("table", { class: "taps" }, el("thead", {}, el("tr", {}, ["Place", "At", "Tempo from here", ""].map((t) => el("th", { scope: "col", text: t })))), el("tbody", {}, rows)) : null,
      all,
    );
  }

  async #useAll() {
    for (const { tap, perMinute } of tempi(this.#steps, this.#taps)) {
      if (perMinute && !(await this.#useTempo(this.#steps[tap.step], perMinute))) return;
    }
  }

  /**
   * @param {BarStep} step
   * @param {number} perMinute
   * @returns {Promise<boolean>} whether it counts now
   */
  async #useTempo(step, perMinute) {
    const beat = new Map([[1, "1/4"], [1.5, "3/8"], [2, "1/2"], [0.5, "1/8"]]).get(step.share);
    if (!beat) {
      toast("This beat has no simple note value; set the tempo in the road map.", { kind: "bad" });
      return false;
    }
    try {
      const { revision } = await call("GET", bookPath(this.#book, "/changes"));
      const name = who();
      const change = { number: this.#number.value, kind: "tempo", first: step.name, beat, perMinute: Math.round(perMinute), ...(name ? { who: name } : {}) };
      await call("POST", bookPath(this.#book, "/changes"), { body: change, match: revision });
      toast(`${Math.round(perMinute)} a minute from bar ${step.name} now counts in the plan.`, { kind: "good" });
      return true;
    } catch (error) {
      complain(error);
      return false;
    }
  }

  /** Looks more often than the player tells, so that a bar is marked when it begins. */
  #watch() {
    const end = every(60, () => {
      this.#followNow();
      if (this.#audio.paused) end();
    });
  }

  #followNow() {
    this.#follower.show(stepAt(this.#steps, this.#taps, this.#audio.currentTime));
  }
}
