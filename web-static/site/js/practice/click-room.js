import { button, el, show } from "../core/dom.js";
import { icon } from "../core/icons.js";
import { numberName } from "../core/words.js";
import { Clicker } from "./clicker.js";

/** @typedef {import("./steps.js").BarStep} BarStep */

const HEARING =
  "The click starts quiet. Loud sound damages hearing for good: keep it as low as you can follow, and take breaks. " +
  "Whether anyone wears headphones in the pit is for the director and the house to decide.";

/** The click: choose a number, a place and a tempo, and count along. */
export class ClickRoom {
  #clicker = new Clicker();
  #stepsOf;
  /** @type {BarStep[]} */
  #steps = [];
  #number = el("select", { id: "click-number", "aria-label": "Number" });
  #from = el("select", { id: "click-from", "aria-label": "From" });
  #tempo = el("input", { id: "click-tempo", type: "number", min: 20, max: 300, value: "100", "aria-label": "Beats a minute" });
  #level = el("input", { id: "click-level", type: "range", min: 0, max: 100, value: "12", "aria-label": "Loudness" });
  #bar = el("p", { class: "now-bar", text: "–" });
  #about = el("p", { class: "now-about soft", text: "Choose a number and start." });
  #beats = el("div", { class: "now-beats", "aria-hidden": "true" });
  #go;
  #on;
  #source = el("p", { class: "soft small" });
  node;

  /**
   * @param {any[]} numbers of the plan, with label and title
   * @param {(label: string) => BarStep[]} stepsOf
   * @param {(label: string, share: number) => {clicks: number, from: string}|undefined} tempoOf clicks a minute and where they are known from; `share` is the quarters in a click
   */
  constructor(numbers, stepsOf, tempoOf) {
    this.#stepsOf = stepsOf;
    this.#go = button("Start", () => void this.#toggle(), { class: "btn btn-main btn-large", id: "click-go" }, icon("play"));
    this.#on = button("Go on from the vamp (space)", () => this.#clicker.goOn(), { class: "btn btn-large", id: "click-on", disabled: true });
    show(this.#number, numbers.map((n) => el("option", { value: n.label, text: numberName(n) })));
    this.#number.addEventListener("change", () => this.#choose(tempoOf));
    this.#tempo.addEventListener("change", () => this.#setTempo());
    this.#level.addEventListener("input", () => (this.#clicker.level = Number(this.#level.value) / 100));
    this.#clicker.heard = (step, beat, counting) => this.#show(step, beat, counting);
    this.#clicker.ended = () => this.#stopped("The end of the number.");
    addEventListener("keydown", (event) => {
      if (event.key !== " " || !this.#clicker.running || event.target instanceof HTMLInputElement) return;
      event.preventDefault();
      this.#clicker.goOn();
    });
    addEventListener("pagehide", () => this.#clicker.stop());
    const line = (/** @type {string} */ label, /** @type {HTMLElement} */ input) => el("label", { class: "field" }, el("span", { class: "field-label", text: label }), input);
    this.node = el(
      "section",
      { class: "card", "aria-label": "Click" },
      el("h2", { text: "A click that knows the way" }),
      el("aside", { class: "care", "aria-label": "Hearing" }, el("p", { text: HEARING })),
      el("div", { class: "click-grid" }, line("Number", this.#number), line("From", this.#from), line("Beats a minute", this.#tempo), line("Loudness", this.#level)),
      this.#source,
      el("div", { class: "now", "aria-live": "off" }, this.#bar, this.#beats, this.#about),
      el("div", { class: "row" }, this.#go, this.#on),
    );
    if (numbers.length) this.#choose(tempoOf);
  }

  /** @param {string} bar id of the entry to begin at; nothing happens when it is not played */
  beginAt(bar) {
    const labels = [...this.#number.options].map((o) => o.value);
    const label = labels.find((l) => this.#stepsOf(l).some((s) => s.bar === bar));
    if (label === undefined) return;
    this.#number.value = label;
    this.#number.dispatchEvent(new Event("change"));
    const i = this.#steps.findIndex((s) => s.bar === bar);
    if (![...this.#from.options].some((o) => o.value === String(i))) {
      this.#from.prepend(el("option", { value: String(i), text: `bar ${this.#steps[i].name}` }));
    }
    this.#from.value = String(i);
  }

  /** @param {(label: string, share: number) => {clicks: number, from: string}|undefined} tempoOf */
  #choose(tempoOf) {
    this.#clicker.stop();
    this.#stopped("Choose where to begin, and start.");
    this.#steps = this.#stepsOf(this.#number.value);
    const places = this.#steps.flatMap((step, i) => (i === 0 || step.mark ? [{ i, step }] : []));
    show(this.#from, places.map(({ i, step }) => el("option", { value: String(i), text: step.mark ? `${step.mark} (bar ${step.name})` : `bar ${step.name}` })));
    const known = tempoOf(this.#number.value, this.#steps[0]?.share ?? 1);
    if (known) this.#tempo.value = String(Math.round(known.clicks));
    this.#source.textContent = known ? known.from : "No tempo is known for this number: 100 is only a beginning. Set your own.";
    if (!known) this.#tempo.value = "100";
    this.#setTempo();
  }

  /** The tempo is said in clicks; the clicker counts in quarters. */
  #setTempo() {
    const clicks = Math.min(300, Math.max(20, Number(this.#tempo.value) || 100));
    this.#clicker.tempo = clicks * (this.#steps[0]?.share ?? 1);
  }

  async #toggle() {
    if (this.#clicker.running) {
      this.#clicker.stop();
      this.#stopped("Stopped.");
      return;
    }
    if (this.#steps.length === 0) return;
    this.#setTempo();
    this.#clicker.level = Number(this.#level.value) / 100;
    await this.#clicker.start(this.#steps, Number(this.#from.value) || 0);
    show(this.#go, icon("stop"), "Stop");
  }

  /** @param {string} text */
  #stopped(text) {
    show(this.#go, icon("play"), "Start");
    this.#on.disabled = true;
    this.#about.textContent = text;
    show(this.#beats);
  }

  /**
   * @param {BarStep|undefined} step
   * @param {number} beat
   * @param {boolean} counting
   */
  #show(step, beat, counting) {
    if (!step) return;
    this.#bar.textContent = counting ? "ready" : step.rest && step.left > 1 ? `${step.name}  rest, ${step.left} to go` : step.name;
    show(this.#beats, Array.from({ length: step.beats }, (_, i) => el("span", { class: i === beat ? "beat on" : "beat" })));
    this.#about.textContent = counting
      ? `One bar to count in, then bar ${step.name}.`
      : [step.mark ? `mark ${step.mark}` : "", `page ${step.page}`, step.vamp ? "vamp: press space to go on" : ""].filter(Boolean).join(" · ");
    this.#on.disabled = !step.vamp || counting;
  }
}

