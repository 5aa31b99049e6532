import { button, el, svg } from "./dom.js";

/** Our own signs, drawn on a 24-unit square. */
const PATHS = /** @type {Record<string, string>} */ ({
  undo: "M9 5 4 10l5 5M4 10h10a6 6 0 0 1 0 12h-3",
  redo: "m15 5 5 5-5 5M20 10H10a6 6 0 0 0 0 12h3",
  plus: "M12 5v14M5 12h14",
  minus: "M5 12h14",
  fit: "M4 9V4h5M20 9V4h-5M4 15v5h5M20 15v5h-5",
  left: "m15 5-7 7 7 7",
  right: "m9 5 7 7-7 7",
  barline: "M12 3v18M5 8h14M5 12h14M5 16h14",
  tick: "m5 13 5 5L20 6",
  doubt: "M8.5 9a3.5 3.5 0 1 1 5 3.2c-1 .5-1.5 1.2-1.5 2.3M12 18.5v.5",
  pencil: "m4 20 1-4L16 5l3 3L8 19z",
  bin: "M5 7h14M10 7V4h4v3M7 7l1 13h8l1-13",
  camera: "M4 8h4l2-3h4l2 3h4v11H4zM12 10a3.5 3.5 0 1 0 0 7 3.5 3.5 0 0 0 0-7z",
  lamp: "M7 3h8l4 7H9zM12 10v9M7 20h10",
  help: "M12 3a9 9 0 1 0 0 18 9 9 0 0 0 0-18zM9.5 9.5a2.5 2.5 0 1 1 3.6 2.2c-.8.4-1.1.9-1.1 1.8M12 16.5v.5",
  dim: "M12 4a8 8 0 1 0 0 16zM12 4a8 8 0 0 1 0 16",
  warn: "M12 4 3 20h18zM12 10v5M12 17.5v.5",
  play: "M8 5v14l11-7z",
  stop: "M7 7h10v10H7z",
  waits: "M7 4h10M7 20h10M8 4c0 5 8 6 8 11v5M16 4c0 5-8 6-8 11v5",
});

/**
 * @param {string} name
 * @returns {SVGSVGElement}
 */
export function icon(name) {
  return svg(
    "svg",
    { class: "icon", viewBox: "0 0 24 24", "aria-hidden": "true", focusable: "false" },
    svg("path", { d: PATHS[name] ?? PATHS.doubt }),
  );
}

/**
 * A small button: a sign with its word under it, for a sign alone has to be guessed.
 *
 * @param {string} sign
 * @param {string} word
 * @param {() => void} action
 * @param {Parameters<typeof button>[2]} [props]
 */
export function signButton(sign, word, action, props = {}) {
  return button("", action, { class: "btn btn-icon btn-sign", ...props }, icon(sign), el("span", { class: "sign-word", text: word }));
}

/** The project's own sign: a rest bar between two barlines. */
export function brandSign() {
  return svg(
    "svg",
    { class: "brand-sign", viewBox: "0 0 40 24", "aria-hidden": "true", focusable: "false" },
    svg("path", { d: "M3 2v20M37 2v20", class: "brand-line" }),
    svg("path", { d: "M10 8v8M30 8v8M10 12h20", class: "brand-rest" }),
  );
}
