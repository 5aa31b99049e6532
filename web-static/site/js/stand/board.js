import { button, el, show } from "../core/dom.js";
import { count, duration, inHand } from "../core/words.js";
import { TheirBars } from "../shared/theirs.js";
import { nth, sayStop } from "./stops.js";
import { ahead, back, on, places, START } from "./walk.js";

/**
 * @typedef {import("./stops.js").Stop} Stop
 * @typedef {import("./walk.js").Place} Place
 */

/** Keys of the keyboard and of foot pedals, which send the same. */
const ON = ["PageDown", "ArrowRight", "ArrowDown", " ", "Enter"];
const BACK = ["PageUp", "ArrowLeft", "ArrowUp", "Backspace"];

/** @type {Record<Stop["kind"], string>} */
const KIND = { ready: "Ready", music: "Play", rest: "Rest", vamp: "Vamp", safety: "Safety", tacet: "Tacet", end: "" };

/** What stands before the player: now, next, the turn; two large keys under it. Nothing moves, nothing sounds. */
export class Board {
  /** @type {Stop[]} */
  #stops = [];
  #place = START;
  #moved;
  #number = el("p", { class: "stand-number" });
  #kind = el("p", { class: "stand-kind" });
  #big = el("p", { class: "stand-big" });
  #about = el("p", { class: "stand-about" });
  #notes = el("ul", { class: "stand-notes" });
  #next = el("dl", { class: "stand-next" });
  /** What bars are called in the part beside this one. */
  theirs = new TheirBars();
  #on;
  #back;
  #now = el("section", { class: "stand-now", "aria-label": "Now" }, this.#kind, this.#big, this.#about, this.#notes);
  node;

  /**
   * @param {Node[]} tools what stands in the strip at the top
   * @param {(place: Place) => void} moved told after every step
   */
  constructor(tools, moved) {
    this.#moved = moved;
    this.#back = button("Back", () => this.#step(back), { class: "btn stand-key", id: "stand-back" });
    this.#on = button("On", () => this.#step(on), { class: "btn stand-key stand-on", id: "stand-on" });
    this.#now.addEventListener("click", () => this.#step(on));
    this.node = el(
      "div",
      { class: "stand" },
      el("div", { class: "stand-strip" }, this.#number, el("div", { class: "stand-tools" }, tools)),
      this.#now,
      this.#next,
      el("div", { class: "stand-keys" }, this.#back, this.#on),
    );
  }

  get stops() {
    return this.#stops;
  }

  get place() {
    return this.#place;
  }

  /**
   * @param {Stop[]} stops
   * @param {Place} place
   */
  set(stops, place) {
    this.#stops = stops;
    this.go(place);
  }

  /** @param {Place} place */
  go(place) {
    this.#place = place;
    this.#draw();
    this.#moved(place);
  }

  /** The next press of a pedal goes on, whatever was pressed before. */
  focus() {
    this.#on.focus();
  }

  /** @param {KeyboardEvent} event */
  pressed(event) {
    const step = ON.includes(event.key) ? on : BACK.includes(event.key) ? back : undefined;
    const meant = event.target instanceof HTMLButtonElement && event.target !== this.#on && (event.key === " " || event.key === "Enter");
    if (!step || meant || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    // a pedal that is held sends its key again and again
    if (!event.repeat && event.type === "keydown") this.#step(step);
  }

  /** @param {(stops: Stop[], place: Place) => Place} step */
  #step(step) {
    this.go(step(this.#stops, this.#place));
    this.focus();
  }

  #draw() {
    const stop = this.#stops[this.#place.stop];
    const { bar } = this.#place;
    this.node.dataset.kind = stop.kind;
    this.node.dataset.stop = String(this.#place.stop);
    this.#number.textContent = stop.kind === "end" ? "" : stop.name;
    this.#kind.textContent = [KIND[stop.kind], ...stop.changes.filter((c) => c.after === bar).map((c) => inHand(c.change.to))].join(" · ");
    this.#big.textContent = large(stop, bar);
    this.#big.classList.toggle("stand-words", /\p{L}{4}/u.test(large(stop, bar)));
    this.#about.textContent = about(stop, bar, this.theirs);
    show(this.#notes, notes(stop, bar).map((text) => el("li", { text })));
    show(this.#next, this.#rows().map(([name, text, kind]) => el("div", { class: `stand-row stand-${kind}` }, el("dt", { text: name }), el("dd", { text }))));
    this.#on.textContent = stop.kind === "rest" ? "Bar over" : stop.kind === "vamp" || stop.kind === "safety" ? "Out" : stop.kind === "end" ? "Over" : "On";
    this.#back.disabled = this.#place.stop === 0 && bar === 0;
  }

  /** @returns {[string, string, string][]} name, text, kind */
  #rows() {
    const { stop } = this.#place;
    const next = this.#stops[stop + 1];
    const then = this.#stops[stop + 2];
    /** @type {[string, string, string][]} */
    const rows = [];
    const other = next && next.night !== this.#stops[stop].night && next.bars.length > 0;
    if (next) rows.push(["Next", [other ? `${[next.how, next.name].filter(Boolean).join(", ")}: ${sayStop(next)}` : sayStop(next), then ? `then ${sayStop(then)}` : ""].filter(Boolean).join(", "), "then"]);
    const { turn, turnIn, turnOpen, round, change, changeIn } = ahead(this.#stops, this.#place);
    if (turn) rows.push(["Turn", turnText(turn, turnIn, turnOpen), `turn-${turn.verdict}`]);
    for (const other of round) rows.push(["And", turnText(other.turn, other.turnIn, false), `turn-${other.turn.verdict}`]);
    if (change) rows.push(["Take up", [`${inHand(change.to)}, in ${count(changeIn, "bar")}`, change.seconds === undefined ? "" : `${duration(change.seconds)} for it`].filter(Boolean).join(", "), `turn-${change.verdict}`]);
    return rows;
  }

  /** @returns {ReturnType<typeof places>} */
  places() {
    return places(this.#stops);
  }
}

/**
 * @param {Stop} stop
 * @param {number} bar
 */
function large(stop, bar) {
  const { bars, kind } = stop;
  if (kind === "rest") return String(bar + 1);
  if (kind === "ready" || kind === "tacet" || kind === "end") return stop.name;
  return bars.length > 1 ? `${bars[0]}–${bars[bars.length - 1]}` : bars[0];
}

/**
 * @param {Stop} stop
 * @param {number} bar
 * @param {TheirBars} theirs
 */
function about(stop, bar, theirs) {
  const named = stop.kind === "rest" ? [stop.bars[bar], stop.bars[bar]] : stop.bars.length ? [stop.bars[0], stop.bars[stop.bars.length - 1]] : [];
  const rest = stop.kind === "rest" ? [`of ${stop.bars.length}`, `bar ${stop.bars[bar]}`] : [];
  const open = stop.open ? [leaving(stop.open), stop.silent ? "bars of rest" : ""] : [];
  return [
    ...rest,
    named.length ? theirs.beside(stop.label, named[0], named[1]) : "",
    ...open,
    stop.kind === "music" ? count(stop.bars.length, "bar") : "",
    stop.mark ? `mark ${stop.mark}` : "",
    stop.kind === "ready" || stop.kind === "tacet" ? stop.how : "",
    stop.jump && stop.kind !== "rest" ? stop.jump : stop.pass > 1 ? `${nth(stop.pass)} time` : "",
    stop.page ? `page ${stop.page}` : "",
  ].filter(Boolean).join(" · ");
}

/** @param {import("./stops.js").OpenStretch} open how the director leaves it */
function leaving(open) {
  if (open.kind === "safety") return "again only if it is shown";
  const till = `till ${open.cue ?? "the cue"}`;
  const out = open.exitBar ? `out at ${open.exitBar}${open.exitBeat ? `, beat ${open.exitBeat}` : ""}` : open.leave === "any-time" ? "out at any time" : open.leave === "end-of-pass" ? "out at the end of a pass" : "";
  return [till, out].filter(Boolean).join(", ");
}

/**
 * @param {Stop} stop
 * @param {number} bar
 */
function notes(stop, bar) {
  const passing = stop.marks.filter((m) => m.after >= bar).map((m) => (m.after === bar ? `Here: ${m.what}` : `${m.what} after ${m.after}`));
  const here = stop.turns.filter((t) => t.after === bar || (stop.kind !== "rest" && t.after <= stop.bars.length)).map((t) => t.turn.advice[0]?.text ?? "");
  // how a vamp is left stands over it, and what a question is about is all there is time for
  const noted = stop.notes.filter((t) => !stop.open || !/^(vamp|safety)\b/i.test(t)).map((t) => (t.startsWith("Not settled") ? t.replace(/\?.*$/s, "?") : t));
  const all = [...stop.changes.filter((c) => c.after >= bar).map((c) => c.change.text ?? ""), ...passing, ...here, ...noted].filter(Boolean);
  // a mark in capitals and its words are one
  return all.filter((text, i) => all.findIndex((t) => t.toLowerCase() === text.toLowerCase()) === i);
}

/**
 * @param {import("./stops.js").Turn} turn
 * @param {number} bars
 * @param {boolean} open
 */
function turnText(turn, bars, open) {
  const back = turn.direction === "back" ? "back" : "";
  const way = turn.again ? `turn ${back} ${turn.again}, `.replace("  ", " ") : back && `${back}, `;
  const where = `page ${turn.fromPage} to ${turn.toPage}, ${way}after ${count(bars, "bar")}${open ? " and the vamp" : ""}`;
  const { seconds, bars: free, beats } = turn.gap;
  const time = turn.verdict === "none" ? "no time" : ["you have", [turn.verdict === "quick" ? "quick" : "", free ? count(free, "bar") : beats ? count(Number(beats.toFixed(1)), "beat") : "", seconds === undefined ? "time not known" : duration(seconds)].filter(Boolean).join(", ")].join(" ");
  return [where, time, turn.mark ?? ""].filter(Boolean).join(" · ");
}
