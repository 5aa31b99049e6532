import { later } from "../core/clock.js";
import { leave } from "../core/held.js";

/**
 * Every key of the desk, in one list: what is pressed, what it does, in words.
 *
 * @typedef {{keys: string[], shown: string, does: string, run: string}} Key
 */

/** @type {Key[]} */
export const KEYS = [
  { keys: ["ArrowLeft"], shown: "←", does: "bar before", run: "left" },
  { keys: ["ArrowRight"], shown: "→", does: "bar after", run: "right" },
  { keys: ["ArrowUp"], shown: "↑", does: "line above", run: "up" },
  { keys: ["ArrowDown"], shown: "↓", does: "line below", run: "down" },
  { keys: ["d", "D"], shown: "D", does: "next doubt, with 1 … 9 for its answers", run: "doubt" },
  { keys: ["r", "R"], shown: "R", does: "the last correction again, on this bar", run: "repeat" },
  { keys: ["x", "X"], shown: "X", does: "this bar too: what is said next is said of all bars so marked (Ctrl and a tap; Shift and a tap: all up to there)", run: "also" },
  { keys: ["g", "G"], shown: "G", does: "go to a page", run: "page" },
  { keys: ["c", "C"], shown: "C", does: "music, rest, long rest, same again: the next one", run: "content" },
  { keys: ["a", "A"], shown: "A", does: "it is music", run: "music" },
  { keys: [":", "shift+:"], shown: ":", does: "repeat at the end of the bar, or none", run: "repeat-end" },
  { keys: [";", "shift+;"], shown: ";", does: "repeat at its start, or none", run: "repeat-start" },
  { keys: ["s", "S"], shown: "S", does: "a musical number starts here", run: "start" },
  { keys: ["m", "M"], shown: "M", does: "rehearsal mark", run: "mark" },
  { keys: [",", "<", "shift+<"], shown: ",", does: "rehearsal mark: one bar back", run: "mark-back" },
  { keys: [".", ">", "shift+>"], shown: ".", does: "rehearsal mark: one bar on", run: "mark-on" },
  { keys: ["t", "T"], shown: "T", does: "time signature", run: "meter" },
  { keys: ["n", "N"], shown: "N", does: "bar number", run: "number" },
  { keys: ["b", "B"], shown: "B", does: "add a barline: tap where", run: "add" },
  { keys: ["Enter"], shown: "Enter", does: "while adding: put the barline in the middle of the bar", run: "middle" },
  { keys: ["Delete", "Backspace"], shown: "Delete", does: "remove the barline at the end of the bar", run: "remove" },
  { keys: ["shift+ArrowLeft"], shown: "Shift ←", does: "move that barline a little left", run: "nudge-left" },
  { keys: ["shift+ArrowRight"], shown: "Shift →", does: "move that barline a little right", run: "nudge-right" },
  { keys: ["v", "V"], shown: "V", does: "this page is checked, or not yet", run: "verify" },
  { keys: ["ctrl+z", "ctrl+Z"], shown: "Ctrl Z", does: "take back", run: "undo" },
  { keys: ["ctrl+shift+Z", "ctrl+shift+z", "ctrl+y"], shown: "Ctrl Shift Z", does: "do it again", run: "redo" },
  { keys: ["h", "H"], shown: "H", does: "who changed what", run: "history" },
  { keys: ["+", "=", "shift++"], shown: "+", does: "larger", run: "larger" },
  { keys: ["-"], shown: "−", does: "smaller", run: "smaller" },
  { keys: ["0"], shown: "0", does: "whole page, or its width", run: "fit" },
  { keys: ["z", "Z"], shown: "Z", does: "close up on the bar", run: "close" },
  { keys: ["alt+ArrowLeft", "alt+ArrowRight", "alt+ArrowUp", "alt+ArrowDown"], shown: "Alt arrows", does: "push the page about", run: "pan" },
  { keys: ["PageUp"], shown: "Page up", does: "page before", run: "page-before" },
  { keys: ["PageDown"], shown: "Page down", does: "page after", run: "page-after" },
  { keys: ["?", "shift+?"], shown: "?", does: "this list", run: "help" },
  { keys: ["Escape"], shown: "Esc", does: "leave it", run: "leave" },
];

/** How long typed figures are waited for before they count. */
const PAUSE_MS = 900;

/** @param {KeyboardEvent} event */
function name(event) {
  const letter = /^[a-z]$/i.test(event.key);
  return [
    event.ctrlKey || event.metaKey ? "ctrl" : "",
    event.altKey ? "alt" : "",
    event.shiftKey && (!letter || event.ctrlKey || event.metaKey) ? "shift" : "",
    event.key,
  ].filter(Boolean).join("+");
}

/** @param {EventTarget|null} target */
function typing(target) {
  return target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement || target instanceof HTMLSelectElement;
}

/** Turns keys into actions, and typed figures into one number. */
export class Keys {
  #figures = "";
  #callOff = () => {};

  /**
   * @param {(run: string, event: KeyboardEvent) => void} act
   * @param {{typed: (figures: string) => void, done: (number: number) => void, wanted: () => boolean, answer: (n: number) => boolean}} figures
   *     `wanted`: whether figures mean something now; `answer`: takes an answer of the doubt at hand, if there is one
   */
  constructor(act, figures) {
    addEventListener("keydown", (event) => {
      if (document.querySelector("dialog[open]")) return;
      const pressed = name(event);
      if (typing(event.target) && !pressed.startsWith("ctrl")) {
        if (event.key === "Escape") leave();
        return;
      }
      if (typing(event.target)) return;
      if (!this.#figures && /^[1-9]$/.test(pressed) && figures.answer(Number(pressed))) return event.preventDefault();
      if (this.#figure(event, figures)) return;
      const onButton = event.target instanceof Element && event.target.closest("button, a, summary");
      const found = KEYS.find((k) => k.keys.includes(pressed));
      if (!found || (onButton && pressed === "Enter")) return;
      event.preventDefault();
      act(found.run, event);
    });
  }

  /**
   * @param {KeyboardEvent} event
   * @param {{typed: (figures: string) => void, done: (number: number) => void, wanted: () => boolean}} figures
   */
  #figure(event, figures) {
    if (event.ctrlKey || event.metaKey || event.altKey) return false;
    const finish = (/** @type {boolean} */ meant) => {
      this.#callOff();
      const n = Number(this.#figures);
      this.#figures = "";
      figures.typed("");
      if (meant && n > 0) figures.done(n);
    };
    if (this.#figures && (event.key === "Enter" || event.key === "Escape")) {
      event.preventDefault();
      finish(event.key === "Enter");
      return true;
    }
    if (!/^[0-9]$/.test(event.key)) {
      if (this.#figures) finish(true);
      return false;
    }
    if (!this.#figures && (event.key === "0" || !figures.wanted())) return false;
    event.preventDefault();
    this.#figures = (this.#figures + event.key).slice(0, 3);
    figures.typed(this.#figures);
    this.#callOff();
    this.#callOff = later(PAUSE_MS, () => finish(true));
    return true;
  }
}

/**
 * How far an arrow key pushes the page, in screen pixels.
 *
 * @param {KeyboardEvent} [event]
 * @returns {[number, number]}
 */
export function panStep(event) {
  const step = 90;
  const dx = event?.key === "ArrowLeft" ? step : event?.key === "ArrowRight" ? -step : 0;
  const dy = event?.key === "ArrowUp" ? step : event?.key === "ArrowDown" ? -step : 0;
  return [dx, dy];
}
