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

/** Where the last press was: what was pressed may be drawn anew or be gone. @type {DOMRect|undefined} */
let pressed;
addEventListener("pointerdown", (event) => {
  const on = event.target instanceof Element ? event.target.closest("button, a, input, select, textarea, summary, label") : null;
  if (!on?.closest(".toasts")) pressed = on?.getBoundingClientRect();
}, { capture: true });

/** Messages move to the upper edge when they would lie over what was just used. */
function clear() {
  const box = holder();
  box.classList.remove("toasts-top");
  const here = box.getBoundingClientRect();
  const over = (/** @type {DOMRect|undefined} */ r) => r !== undefined && r.width > 0 && r.left < here.right && r.right > here.left && r.top < here.bottom && r.bottom > here.top;
  const focused = document.activeElement;
  const own = focused === document.body || focused?.closest(".toasts") ? undefined : focused?.getBoundingClientRect();
  // a large thing in focus, the page for instance, is not what a message belongs to
  box.classList.toggle("toasts-top", over(pressed) || (own !== undefined && own.height < 200 && over(own)));
}

/**
 * Takes the action away from the messages of a kind: another step is the last one now.
 *
 * @param {string} last
 */
export function forget(last) {
  for (const old of holder().querySelectorAll(".toast")) {
    if (/** @type {HTMLElement} */ (old).dataset.last === last) old.querySelector(".toast-action")?.remove();
  }
}

/**
 * Says something for a moment at the edge of the page.
 *
 * @param {string} text
 * @param {{kind?: "note"|"good"|"bad", action?: {label: string, run: () => void, last?: string}, stay?: boolean, key?: string}} [options]
 *     `key`: a later message with the same key takes the place of this one; `last`: the action is about
 *     the last step of this kind only, so a later message of the kind takes it from the ones before
 * @returns {() => void} takes it away
 */
export function toast(text, { kind = "note", action, stay = false, key } = {}) {
  const box = el("div", { class: `toast toast-${kind}`, role: kind === "bad" ? "alert" : "status" });
  const away = () => box.remove();
  box.append(el("span", { class: "toast-text", text }));
  if (action?.last) {
    forget(action.last);
    box.dataset.last = action.last;
  }
  if (action) {
    box.append(button(action.label, () => { away(); action.run(); }, { class: "btn btn-quiet toast-action" }));
  }
  box.append(button("", away, { class: "btn btn-icon", "aria-label": "Close this message" }, el("span", { "aria-hidden": "true", text: "×" })));
  if (key) {
    for (const old of holder().querySelectorAll(".toast")) {
      if (/** @type {HTMLElement} */ (old).dataset.key === key) old.remove();
    }
    box.dataset.key = key;
  }
  holder().append(box);
  clear();
  while (holder().childElementCount > 4) holder().firstElementChild?.remove();
  if (!stay) later(kind === "bad" ? 12000 : action ? 10000 : 5000, away);
  return away;
}

let keptSaid = false;

/**
 * Says what went wrong, in the service's words.
 *
 * @param {unknown} error
 */
export function complain(error) {
  const text = error instanceof Error ? error.message : String(error);
  if (error instanceof Error && error.name === "Kept") {
    // an edit that waits is not lost, and the header says how many do: this is said once
    if (!keptSaid) toast(text, { key: "live" });
    keptSaid = true;
  } else toast(text, { kind: "bad", key: text });
}
