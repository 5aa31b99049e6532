import { bookPath, isMissing, read, readRaw } from "../core/api.js";
import { EventBus } from "../core/bus.js";
import { button, el, need, show } from "../core/dom.js";
import { LiveBook } from "../core/live.js";
import { bookInAddress, deadEnd, noBook, shell } from "../core/shell.js";
import { recall, remember } from "../core/store.js";
import { complain } from "../core/toast.js";
import { count } from "../core/words.js";
import { TheirBars } from "../shared/theirs.js";
import { planWaitsLine } from "../shared/waits.js";
import { chooseDim, DIM } from "./dim.js";
import { placeForm } from "./places.js";
import { Playing } from "./playing.js";
import { stopsOf } from "./stops.js";
import { keep, keptIn, sameIn, START } from "./walk.js";

/** @typedef {import("./walk.js").Kept} Kept */

const CARE =
  "A screen shines on faces and on the stage: keep it dim, and ask whoever runs the pit whether screens are allowed there at all. " +
  "What the director shows counts, not this plan. Where screens must stay out, take the run sheet on paper.";

/** One room for playing: where the player is in the night, counted along by taps. */
class StandRoom {
  #book = bookInAddress();
  /** Edits that wait in this browser and are not in the plan that is played from. */
  #waits = 0;
  #without = el("span", { class: "stand-waits", id: "stand-waits", hidden: true });
  #fresh = button("New plan: take it", () => void this.#renew(), { class: "btn stand-tool", id: "stand-fresh", hidden: true });
  #playing = new Playing([this.#without, this.#fresh], (place) => remember(this.#key, keep(this.#board.stops, place)), () => this.#front());
  #title = "";
  get #board() {
    return this.#playing.board;
  }

  get #key() {
    return `stand.${this.#book}`;
  }

  async start() {
    shell({ room: "stand", book: this.#book });
    if (!this.#book) return deadEnd("Which book?", "The address names no book.");
    try {
      const stops = await this.#load();
      if (!stops.some((stop) => stop.label || stop.entries.length)) {
        return deadEnd("Nothing to play from yet", "Add pages first; the stand follows the order of play as soon as there is one.", { href: `/book.html?b=${encodeURIComponent(this.#book)}`, text: "Add pages" });
      }
      const kept = recall(this.#key, /** @type {Kept|undefined} */ (undefined));
      this.#board.set(stops, kept ? keptIn(kept, stops) : START);
    } catch (error) {
      if (isMissing(error)) return noBook();
      complain(error);
      return deadEnd("The stand can't be set up right now", "Reload the page to try again.");
    }
    this.#listen();
    this.#front();
  }

  async #load() {
    const [info, map, plan, align] = await Promise.all([read(this.#book, ""), readRaw(this.#book, "/map"), read(this.#book, "/plan"), read(this.#book, "/align?only=changes").catch(() => undefined)]);
    this.#board.theirs = new TheirBars(align);
    this.#waits = plan.waits ?? 0;
    this.#without.hidden = this.#waits === 0;
    this.#without.textContent = `Without ${count(this.#waits, "edit")} that ${this.#waits === 1 ? "waits" : "wait"}`;
    this.#title = `${info.title}, ${info.part}`;
    shell({ room: "stand", book: this.#book, title: this.#title });
    return stopsOf(plan, map);
  }

  #listen() {
    /** @type {EventBus<import("../core/types.js").LiveEvents>} */
    const bus = new EventBus();
    // nothing changes under a player's eyes: a new plan waits until it is taken
    for (const name of /** @type {const} */ (["live:plan", "live:map", "live:settings"])) bus.on(name, () => (this.#fresh.hidden = false));
    new LiveBook(bookPath(this.#book, "/events"), bus);
  }

  /** Before it is set up: what to mind, and where to begin. */
  #front() {
    const run = (/** @type {string} */ kind, /** @type {string} */ name) => el("a", { class: "btn", href: bookPath(this.#book, `/sheets/${kind}.pdf`), target: "_blank", rel: "noopener", text: name });
    const begin = button("Set it up", () => this.#playing.begin(), { class: "btn btn-main btn-large", id: "stand-begin" });
    show(
      need("main"),
      el(
        "div",
        { class: "wide stand-front" },
        el("h1", { text: "The stand" }),
        planWaitsLine(this.#waits),
        el("p", { text: "What is now, what comes next, the next turn and how long it leaves you. Each tap goes on: in a rest bar by bar, in music to the next thing that happens; a vamp is held until you tap." }),
        el("p", { class: "soft", text: "Tap anywhere on the page, or use the keys of a keyboard or a foot pedal: page down, right, down, space or Enter go on; page up, left, up go back. Nothing sounds and nothing moves." }),
        el("aside", { class: "care", "aria-label": "Care" }, el("p", { text: CARE })),
        placeForm(this.#board, "front"),
        chooseDim(),
        el("div", { class: "row stand-go" }, begin),
        el("div", { class: "row" }, el("span", { text: "On paper: " }), run("run", "Run sheet"), run("turns", "Turns"), run("substitute", "For a substitute")),
      ),
    );
    begin.focus({ preventScroll: true });
  }

  async #renew() {
    try {
      const stops = await this.#load();
      this.#board.set(stops, sameIn(this.#board.stops, this.#board.place, stops));
      this.#fresh.hidden = true;
    } catch {
      this.#fresh.textContent = "Not now: still the old plan";
    }
    this.#board.focus();
  }
}

document.documentElement.dataset.dim = String(recall(DIM, 3));
void new StandRoom().start();
