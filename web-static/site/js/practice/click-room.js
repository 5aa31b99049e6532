import { button, el, show } from "../core/dom.js";
import { icon } from "../core/icons.js";
import { bookInAddress } from "../core/shell.js";
import { count, numberName } from "../core/words.js";
import { Clicker } from "./clicker.js";

/** @typedef {import("../shared/steps.js").BarStep} BarStep */

const HEARING =
  "The click starts quiet. Loud sound damages hearing for good: keep it as low as you can follow, and take breaks. " +
  "Whether anyone wears headphones in the pit is for the director and the house to decide.";

/**
 * Where the click takes its tempo from.
 *
 * @param {number} bars
 * @param {number} without how many of them have no tempo
 */
function tempoText(bars, without) {
  if (without === 0) return "Every bar has its tempo, from the book and the show's changes; the click follows them.";
  if (without === bars) return "No tempo is known for this number: 100 is only a beginning. Set your own.";
  return `${count(without, "bar")} of ${bars} ${without === 1 ? "has" : "have"} no tempo; there the click goes as you set it. The others go as marked.`;
}

/**
 * Where the tempo at a bar is written into the book.
 *
 * @param {string} bar id of the bar entry
 */
function tempoField(bar) {
  return `/desk.html?b=${encodeURIComponent(bookInAddress())}&bar=${encodeURIComponent(bar)}&field=tempo`;
}

/**
 * A place to begin at; under a repeat its bar comes more than once.
 *
 * @param {BarStep} step
 */
function placeText({ mark, name, pass }) {
  const bar = mark ? `${mark} (bar ${name})` : `bar ${name}`;
  return pass > 1 ? `${bar}, ${["2nd", "3rd"][pass - 2] ?? `${pass}th`} time` : bar;
}

/** The click: choose a number, a place and a tempo, and count along. */
export class ClickRoom {
  #clicker = new Clicker();
  #stepsOf;
  /** @type {BarStep[]} */
  #steps = [];
  #number = el("select", { id: "click-number", "aria-label": "Number" });
  #from = el("select", { id: "click-from", "aria-label": "From" });
  #speed = el("input", { id: "click-speed", type: "range", min: 50, max: 120, step: 5, value: "100", "aria-label": "Speed in percent" });
  #speedText = el("span", { class: "soft", text: "as marked" });
  #tempo = el("input", { id: "click-tempo", type: "number", min: 20, max: 300, value: "100", "aria-label": "Beats a minute" });
  #level = el("input", { id: "click-level", type: "range", min: 0, max: 100, value: "12", "aria-label": "Loudness" });
  #bar = el("p", { class: "now-bar", text: "–" });
  #about = el("p", { class: "now-about soft", text: "Choose a number and start." });
  #beats = el("div", { class: "now-beats", "aria-hidden": "true" });
  #go;
  #on;
  #follower;
  #source = el("p", { class: "soft small" });
  node;

  /**
   * @param {import("../core/types.js").PlannedNumber[]} numbers of the plan, with label and title
   * @param {(label: string) => BarStep[]} stepsOf
   * @param {import("./follow.js").Follower} follower shows the page under the bar that is clicked
   */
  constructor(numbers, stepsOf, follower) {
    this.#stepsOf = stepsOf;
    this.#follower = follower;
    this.#go = button("Start", () => void this.#toggle(), { class: "btn btn-main btn-large", id: "click-go" }, icon("play"));
    this.#on = button("Go on from the vamp (space)", () => this.#clicker.goOn(), { class: "btn btn-large", id: "click-on", disabled: true });
    show(this.#number, numbers.map((n) => el("option", { value: n.label, text: numberName(n) })));
    this.#number.addEventListener("change", () => this.#choose());
    this.#speed.addEventListener("input", () => this.#setSpeed());
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
      el("div", { class: "click-grid" }, line("Number", this.#number), line("From", this.#from), el("label", { class: "field" }, el("span", { class: "field-label" }, "Speed: ", this.#speedText), this.#speed), line("A minute, if unmarked", this.#tempo), line("Loudness", this.#level)),
      this.#source,
      el("div", { class: "now", "aria-live": "off" }, this.#bar, this.#beats, this.#about),
      el("div", { class: "row" }, this.#go, this.#on),
      this.#follower.node,
    );
    if (numbers.length) this.#choose();
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

  #choose() {
    this.#clicker.stop();
    this.#stopped("Choose where to begin, and start.");
    this.#steps = this.#stepsOf(this.#number.value);
    const places = this.#steps.flatMap((step, i) => (i === 0 || step.mark ? [{ i, step }] : []));
    show(this.#from, places.map(({ i, step }) => el("option", { value: String(i), text: placeText(step) })));
    const without = this.#steps.filter((step) => step.perMinute === undefined).length;
    this.#tempo.disabled = without === 0;
    const unknown = this.#steps.find((step) => step.perMinute === undefined);
    show(this.#source, tempoText(this.#steps.length, without), unknown ? el("a", { class: "block", href: tempoField(unknown.bar), text: `Write the tempo at bar ${unknown.name} into the book` }) : null);
    this.#setTempo();
  }

  #setSpeed() {
    const percent = Number(this.#speed.value) || 100;
    this.#speedText.textContent = percent === 100 ? "as marked" : `${percent} %`;
    this.#clicker.speed = percent / 100;
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
    this.#follower.show(step);
    this.#bar.textContent = counting ? "ready" : step.rest && step.left > 1 ? `${step.name}  rest, ${step.left} to go` : step.name;
    show(this.#beats, Array.from({ length: step.beats }, (_, i) => el("span", { class: i === beat ? "beat on" : "beat" })));
    this.#about.textContent = counting
      ? `One bar to count in, then bar ${step.name}.`
      : [step.mark ? `mark ${step.mark}` : "", `page ${step.page}`, step.perMinute ? `${Math.round(step.perMinute / step.share)} a minute` : "no tempo known", step.vamp ? "vamp: press space to go on" : ""].filter(Boolean).join(" · ");
    this.#on.disabled = !step.vamp || counting;
  }
}

