import { button, el } from "../core/dom.js";
import { icon } from "../core/icons.js";

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
 * @param {{label: string, value: number, min: number, max: number, set: (value: number) => void, id: string}} options
 */
export function stepper({ label, value, min, max, set, id }) {
  const input = el("input", { id, class: "stepper-value", type: "text", inputmode: "numeric", pattern: "[0-9]*", value: String(value), "aria-label": label, autocomplete: "off" });
  const take = () => {
    const n = Number(input.value.trim());
    if (Number.isInteger(n) && n >= min && n <= max) {
      if (n !== value) set(n);
    } else {
      input.value = String(value);
    }
  };
  input.addEventListener("change", take);
  input.addEventListener("keydown", (event) => {
    if (event.key === "Enter") input.blur();
  });
  input.addEventListener("focus", () => input.select());
  const step = (/** @type {number} */ by) => set(Math.min(max, Math.max(min, value + by)));
  return el(
    "div",
    { class: "stepper" },
    button("", () => step(-1), { class: "btn", "aria-label": `${label}: one less`, disabled: value <= min }, icon("minus")),
    input,
    button("", () => step(1), { class: "btn", "aria-label": `${label}: one more`, disabled: value >= max }, icon("plus")),
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
    if (event.key === "Enter") input.blur();
  });
  return el(
    "div",
    { class: "text-line" },
    input,
    clear && value ? button("", clear, { class: "btn btn-icon", "aria-label": `${label}: take away` }, icon("bin")) : null,
  );
}
