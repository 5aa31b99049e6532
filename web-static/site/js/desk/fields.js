import { button, el } from "../core/dom.js";
import { leave } from "../core/held.js";
import { icon, signButton } from "../core/icons.js";

/**
 * A group with a heading.
 *
 * @param {string} label
 * @param {...(Node|null)} content
 */
export function group(label, ...content) {
  return el("div", { class: "group", role: "group", "aria-label": label }, el("h3", { class: "group-label", text: label }), content);
}

/**
 * Frames a field in red, and says why under it; takes both away when there is no reason any more.
 *
 * @param {HTMLInputElement} input inside the row it belongs to
 * @param {string} why in plain words; empty where nothing is wrong
 */
export function refuse(input, why) {
  const id = `${input.id}-why`;
  document.getElementById(id)?.remove();
  input.toggleAttribute("aria-invalid", false);
  input.removeAttribute("aria-describedby");
  if (!why) return;
  input.setAttribute("aria-invalid", "true");
  input.setAttribute("aria-describedby", id);
  input.parentElement?.after(el("p", { class: "field-hint field-why", id, role: "alert", text: why }));
}

/**
 * One of several, as large buttons.
 *
 * @param {[string, string][]} choices value and words
 * @param {string|undefined} now
 * @param {(value: string) => void} choose
 * @param {(value: string) => Node|null} [picture]
 */
export function choice(choices, now, choose, picture = () => null) {
  return el(
    "div",
    { class: "choice" },
    choices.map(([value, words]) =>
      button(words, () => choose(value), { class: "btn", "aria-pressed": String(value === now), "data-value": value }, picture(value)),
    ),
  );
}

/**
 * A number with large minus and plus.
 *
 * @param {{label: string, value: number|undefined, min: number, max: number, by?: number, set: (value: number) => void, clear?: () => void, id: string}} options
 *     by: the least step, 1 unless said; clear: called when the field is emptied
 */
export function stepper({ label, value, min, max, by = 1, set, clear, id }) {
  const shown = value === undefined ? "" : String(value);
  const input = el("input", { id, class: "stepper-value", type: "text", inputmode: by < 1 ? "decimal" : "numeric", value: shown, placeholder: "?", "aria-label": label, autocomplete: "off" });
  const take = () => {
    const text = input.value.trim().replace(",", ".");
    const n = Number(text);
    if (text === "" && clear) {
      if (shown) clear();
    } else if (text !== "" && Number.isInteger(n / by) && n >= min && n <= max) {
      refuse(input, "");
      if (n !== value) set(n);
    } else if (text === shown) {
      refuse(input, "");
    } else {
      refuse(input, by < 1 ? `A number from ${min} to ${max}, in halves.` : `A whole number from ${min} to ${max}.`);
    }
  };
  input.addEventListener("change", take);
  input.addEventListener("keydown", (event) => {
    if (event.key === "Enter") leave();
  });
  input.addEventListener("focus", () => input.select());
  const now = value ?? min;
  const step = (/** @type {number} */ way) => set(Math.min(max, Math.max(min, now + way)));
  return el(
    "div",
    { class: "stepper" },
    button("", () => step(-1), { class: "btn", "aria-label": `${label}: one less`, disabled: now <= min && value !== undefined }, icon("minus")),
    input,
    button("", () => step(1), { class: "btn", "aria-label": `${label}: one more`, disabled: now >= max }, icon("plus")),
  );
}

/**
 * A line of text with a button that takes it.
 *
 * @param {{label: string, value: string, set: (text: string) => void, id: string, clear?: () => void, hint?: string}} options
 */
export function textLine({ label, value, set, id, clear, hint }) {
  const input = el("input", { id, value, maxlength: 120, "aria-label": label, placeholder: hint ?? "", autocomplete: "off" });
  const take = () => {
    const text = input.value.trim();
    if (text && text !== value) set(text);
  };
  input.addEventListener("change", take);
  input.addEventListener("keydown", (event) => {
    if (event.key === "Enter") leave();
  });
  return el(
    "div",
    { class: "text-line" },
    input,
    clear && value ? signButton("bin", "Take away", clear, { "aria-label": `${label}: take away` }) : null,
  );
}
