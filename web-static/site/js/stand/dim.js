import { button, el } from "../core/dom.js";
import { recall, remember } from "../core/store.js";

/** How bright the stand is, 1 to 4; remembered under this name. */
export const DIM = "stand-dim";
const BRIGHTEST = 4;

/** @param {number} level */
function set(level) {
  const now = Math.min(BRIGHTEST, Math.max(1, level));
  document.documentElement.dataset.dim = String(now);
  remember(DIM, now);
}

/**
 * @param {1|-1} by
 * @param {() => void} done
 */
export function dimmer(by, done) {
  return button(by < 0 ? "Dimmer" : "Brighter", () => { set(recall(DIM, 3) + by); done(); }, { class: "btn stand-tool", id: by < 0 ? "stand-dimmer" : "stand-brighter" });
}

/** A field for it, before the stand is set up. */
export function chooseDim() {
  const field = el("select", { id: "stand-level", on: { change: () => set(Number(field.value)) } }, ["Very dim", "Dim", "Half", "Bright"].map((text, i) => el("option", { value: String(i + 1), text })));
  field.value = String(recall(DIM, 3));
  return el("label", { class: "field" }, el("span", { class: "field-label", text: "Light" }), field);
}
