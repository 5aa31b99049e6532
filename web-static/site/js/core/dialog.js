import { button, el } from "./dom.js";

/**
 * Opens a dialog and waits until it is closed.
 *
 * @param {string} title
 * @param {Node[]} content
 * @param {{yes?: string, no?: string, danger?: boolean, at?: string, ready?: (form: HTMLFormElement, yes: HTMLButtonElement) => void}} [options]
 *     without `yes` there is only a closing button; `at` names the field to begin with
 * @returns {Promise<FormData|undefined>} the fields, or nothing when it was left
 */
export function ask(title, content, { yes, no = "Cancel", danger = false, at = "", ready } = {}) {
  return new Promise((resolve) => {
    // Without a field to fill in, the heading gets the focus, so that long texts start at their top.
    const heading = el("h2", { text: title, id: "dialog-title", tabindex: -1, autofocus: !yes });
    const accept = el("button", { type: "submit", class: danger ? "btn btn-bad" : "btn btn-main", text: yes ?? "" });
    /** @type {FormData|undefined} */
    let answer;
    const form = el(
      "form",
      { method: "dialog", class: "dialog-form" },
      heading,
      el("div", { class: "dialog-body" }, content),
      el("div", { class: "dialog-foot" }, button(yes ? no : "Close", () => dialog.close()), yes ? accept : null),
    );
    const dialog = el("dialog", { class: "dialog", "aria-labelledby": "dialog-title" }, form);
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      answer = new FormData(form);
      dialog.close();
    });
    dialog.addEventListener("click", (event) => {
      if (event.target === dialog) dialog.close();
    });
    dialog.addEventListener("close", () => {
      dialog.remove();
      resolve(answer);
    });
    document.body.append(dialog);
    ready?.(form, accept);
    dialog.showModal();
    // Where nothing is to be filled in and nothing is lost, Enter says yes.
    const fields = /** @type {NodeListOf<HTMLElement>} */ (form.querySelectorAll(".dialog-body input, .dialog-body select, .dialog-body textarea"));
    const open = [...fields].filter((f) => !f.closest("details:not([open])"));
    const first = open.find((f) => at && f.getAttribute("name") === at) ?? open[0];
    if (yes && first) first.focus();
    else if (yes && !danger) accept.focus();
  });
}

/**
 * Asks before something is lost.
 *
 * @param {string} title
 * @param {string} text
 * @param {string} yes
 */
export async function confirm(title, text, yes) {
  return (await ask(title, [el("p", { text })], { yes, danger: true })) !== undefined;
}

/**
 * A labelled field.
 *
 * @param {string} label
 * @param {HTMLElement} input
 * @param {string} [hint]
 */
export function field(label, input, hint) {
  return el(
    "label",
    { class: "field" },
    el("span", { class: "field-label", text: label }),
    input,
    hint ? el("span", { class: "field-hint", text: hint }) : null,
  );
}
