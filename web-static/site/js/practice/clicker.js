import { every, later } from "../core/clock.js";
import { clickSeconds } from "../shared/steps.js";

/** How far ahead clicks are handed to the sound card, and how often, in seconds. */
const AHEAD = 0.15;
const EVERY_MS = 30;

/**
 * A click that follows the order of play.
 *
 * @typedef {import("../shared/steps.js").BarStep} BarStep
 */
export class Clicker {
  /** @type {AudioContext|undefined} */
  #audio;
  /** @type {GainNode|undefined} */
  #gain;
  /** @type {(() => void)|undefined} ends the ticking, while it runs */
  #end;
  /** @type {BarStep[]} */
  #steps = [];
  #at = 0;
  #beat = 0;
  #countIn = 0;
  #next = 0;
  #perMinute = 100;
  #speed = 1;
  #level = 0.12;
  #released = "";
  /** @type {(step: BarStep|undefined, beat: number, countIn: boolean) => void} */
  heard = () => {};
  /** @type {() => void} */
  ended = () => {};

  get running() {
    return this.#end !== undefined;
  }

  /** @param {number} level 0 to 1 */
  set level(level) {
    this.#level = level;
    if (this.#gain && this.#audio) this.#gain.gain.setTargetAtTime(level * level, this.#audio.currentTime, 0.02);
  }

  /** @param {number} perMinute quarters a minute where the steps know no tempo */
  set tempo(perMinute) {
    this.#perMinute = perMinute;
  }

  /** @param {number} speed 1 as marked */
  set speed(speed) {
    this.#speed = speed;
  }

  /**
   * @param {BarStep[]} steps
   * @param {number} from index
   */
  async start(steps, from) {
    this.stop();
    this.#audio ??= new AudioContext();
    await this.#audio.resume();
    if (!this.#gain) {
      this.#gain = this.#audio.createGain();
      this.#gain.connect(this.#audio.destination);
    }
    this.#gain.gain.value = this.#level * this.#level;
    this.#steps = steps;
    this.#at = from;
    this.#beat = 0;
    this.#released = "";
    this.#countIn = steps[from]?.beats ?? 0;
    this.#next = this.#audio.currentTime + 0.1;
    this.#end = every(EVERY_MS, () => this.#tick());
  }

  stop() {
    this.#end?.();
    this.#end = undefined;
  }

  /** Leaves the vamp: at the end of this pass, or of this bar where it may be left at any time. */
  goOn() {
    this.#released = this.#steps[this.#at]?.vamp ?? "";
  }

  #tick() {
    const audio = this.#audio;
    if (!audio) return;
    while (this.running && this.#next < audio.currentTime + AHEAD) {
      const step = this.#steps[this.#at];
      if (!step) {
        if (audio.currentTime < this.#next) return; // the last clicks still sound
        this.stop();
        this.ended();
        return;
      }
      const counting = this.#countIn > 0;
      const beat = counting ? step.beats - this.#countIn : this.#beat;
      this.#sound(this.#next, beat === 0, counting);
      const wait = Math.max(0, (this.#next - audio.currentTime) * 1000);
      later(wait, () => {
        if (this.running) this.heard(step, beat, counting);
      });
      // The bar counted in goes at the tempo the first bar begins with.
      const at = counting ? { ...step, toPerMinute: step.perMinute } : step;
      this.#next += clickSeconds(at, beat, this.#perMinute, this.#speed);
      if (counting) this.#countIn--;
      else this.#advance(step);
    }
  }

  /** @param {BarStep} step */
  #advance(step) {
    this.#beat++;
    if (this.#beat < step.beats) return;
    this.#beat = 0;
    const next = this.#steps[this.#at + 1];
    if (step.vamp && step.anyTime && step.vamp === this.#released) {
      while (this.#steps[this.#at]?.vamp === step.vamp) this.#at++;
      return;
    }
    if (step.vamp && step.vamp !== this.#released && next?.vamp !== step.vamp) {
      while (this.#at > 0 && this.#steps[this.#at - 1].vamp === step.vamp) this.#at--;
      return;
    }
    this.#at++;
  }

  /**
   * @param {number} time
   * @param {boolean} strong
   * @param {boolean} counting
   */
  #sound(time, strong, counting) {
    const audio = this.#audio;
    if (!audio || !this.#gain) return;
    const tone = audio.createOscillator();
    const shape = audio.createGain();
    tone.frequency.value = counting ? 660 : strong ? 1180 : 880;
    shape.gain.setValueAtTime(0, time);
    shape.gain.linearRampToValueAtTime(strong ? 1 : 0.6, time + 0.003);
    shape.gain.exponentialRampToValueAtTime(0.001, time + 0.06);
    tone.connect(shape).connect(this.#gain);
    tone.start(time);
    tone.stop(time + 0.08);
  }
}
