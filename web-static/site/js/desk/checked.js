import { ask } from "../core/dialog.js";
import { el } from "../core/dom.js";
import { count } from "../core/words.js";

/**
 * A page on which doubts are open is to be marked as checked.
 *
 * @param {number} page
 * @param {import("../core/types.js").Finding[]} open at least one
 * @returns {Promise<boolean>} whether it is right all the same
 */
export async function askChecked(page, open) {
  const said = await ask(
    `Page ${page}: ${count(open.length, "doubt")} still open`,
    [
      el("ul", { class: "open-doubts" }, open.slice(0, 6).map((doubt) => el("li", { text: doubt.text }))),
      open.length > 6 ? el("p", { class: "soft", text: `And ${open.length - 6} more.` }) : "",
      el("p", { text: "A checked page asks nothing more. Is everything on it right as it stands?" }),
    ].filter((part) => part instanceof Node),
    { yes: "All of it is right", no: "Show me the first one", danger: true },
  );
  return said !== undefined;
}
