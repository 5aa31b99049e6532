import { later } from "./clock.js";
import { button, el } from "./dom.js";

/** @type {HTMLElement|undefined} */
let shelf;

function holder() {
  if (!shelf) {
    shelf = el("div", { class: "toasts", role: "region", "aria-label": "Messages" });
    document.body.append(shelf);
  }
  return shelf;
}

/**
 * Says something for a moment at the edge of the page.
 *
 * @param {string} text
 * @param {{kind?: "note"|"good"|"bad", action?: {label: string, run: () => void}, stay?: boolean, key?: string}} [options]
 *     `key`: a later message with the same key takes the place of this one
 * @returns {() => void} takes it away
 */
export function toast(text, { kind = "note", action, stay = false, key } = {}) {
  const box = el("div", { class: `toast toast-${kind}`, role: kind === "bad" ? "alert" : "status" });
  const away = () => box.remove();
  box.append(el("span", { class: "toast-text", text }));
  if (action) {
    box.append(button(action.label, () => { away(); action.run(); }, { class: "btn btn-quiet" }));
  }
  box.append(button("", away, { class: "btn btn-icon", "aria-label": "Close this message" }, el("span", { "aria-hidden": "true", text: "×" })));
  if (key) {
    for (const old of holder().querySelectorAll(".toast")) {
      if (/** @type {HTMLElement} */ (old).dataset.key === key) old.remove();
    }
    box.dataset.key = key;
  }
  holder().append(box);
  while (holder().childElementCount > 4) holder().firstElementChild?.remove();
  if (!stay) later(kind === "bad" ? 12000 : action ? 10000 : 5000, away);
  return away;
}

/**
 * Says what went wrong, in the service's words.
 *
 * @param {unknown} error
 */
export function complain(error) {
  const text = error instanceof Error ? error.message : String(error);
  toast(text, { kind: "bad", key: text });
}
