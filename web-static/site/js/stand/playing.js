import { button, el, need, show } from "../core/dom.js";
import { Awake } from "./awake.js";
import { Board } from "./board.js";
import { dimmer } from "./dim.js";
import { choosePlace } from "./places.js";

/** The stand while it is set up: the board with its tools, and the screen kept awake. */
export class Playing {
  #said = el("span", { class: "stand-awake" });
  #awake = new Awake((text) => (this.#said.textContent = text));
  board;
  #left;

  /**
   * @param {Node[]} tools what else stands in the strip
   * @param {(place: import("./walk.js").Place) => void} moved told after every step
   * @param {() => void} left told when it is put away
   */
  constructor(tools, moved, left) {
    this.#left = left;
    const focus = () => this.board.focus();
    this.board = new Board(
      [...tools, button("Places", () => void choosePlace(this.board).then(focus), { class: "btn stand-tool", id: "stand-places" }), dimmer(-1, focus), dimmer(1, focus), button("Leave", () => this.#leave(), { class: "btn stand-tool", id: "stand-leave" })],
      moved,
    );
    for (const type of /** @type {const} */ (["keydown", "keyup"])) {
      addEventListener(type, (event) => {
        if (this.#isOn && !event.defaultPrevented && !document.querySelector("dialog[open]")) this.board.pressed(event);
      });
    }
  }

  get #isOn() {
    return document.body.classList.contains("stand-is-on");
  }

  begin() {
    document.body.classList.add("stand-is-on");
    show(need("main"), this.board.node, this.#said);
    this.board.focus();
    void this.#awake.hold();
  }

  #leave() {
    void this.#awake.let();
    document.body.classList.remove("stand-is-on");
    this.#left();
  }
}
