/**
 * Who uses the keys stays where they are when a part of the page is drawn anew: what had the focus has it again, or what
 * took its place; never the page's body, from which the next Tab would begin at the top.
 */

const FOCUSABLE = "a[href], button:not(:disabled), input:not(:disabled), select:not(:disabled), textarea:not(:disabled), summary, [tabindex]";
const NAMES = ["id", "data-edit", "data-bar", "data-said", "data-leaf", "data-kind", "aria-label"];

/** @type {{node: Element, above: Element[], names: [string, string][], text: string}|undefined} */
let held;
let begun = false;

/** Begins to look after the focus, once for a page. */
export function holdFocus() {
  if (begun) return;
  begun = true;
  document.addEventListener("focusin", ({ target }) => {
    if (!(target instanceof Element) || target === document.body) return;
    /** @type {Element[]} */
    const above = [];
    for (let e = target.parentElement; e && e !== document.body; e = e.parentElement) above.push(e);
    const names = NAMES.flatMap((n) => (target.getAttribute(n) ? [/** @type {[string, string]} */ ([n, target.getAttribute(n) ?? ""])] : []));
    held = { node: target, above, names, text: target.textContent ?? "" };
  });
  new MutationObserver(giveBack).observe(document.body, { childList: true, subtree: true, attributes: true, attributeFilter: ["hidden", "disabled"] });
}

/** Leaves a field that is done with: keys are the page's again, and what is drawn in the field's place does not take them. */
export function leave() {
  focus(document.getElementById("main"));
}

/** @param {MutationRecord[]} [records] */
function giveBack(records = []) {
  if (!held || (document.activeElement !== document.body && document.activeElement !== null)) return;
  if (document.querySelector("dialog[open]")) return;
  if (held.node.isConnected && isUsable(held.node)) {
    // taken out and put in again, it has lost the keys all the same
    const { node } = held;
    if (records.some((r) => [...r.removedNodes].some((n) => n.contains(node)))) focus(node);
    return;
  }
  const { above, node, names, text } = held;
  const place = above.find((e) => e.isConnected && e.checkVisibility());
  if (!place) return focus(document.getElementById("main"));
  const own = again(place, node.tagName, names, text);
  const main = place.id === "main" || place.contains(document.getElementById("main"));
  focus(own ?? (main ? undefined : [...place.querySelectorAll(FOCUSABLE)].find(isUsable)) ?? document.getElementById("main"));
}

/** @param {Element} node */
function isUsable(node) {
  return !node.matches(":disabled") && node.checkVisibility();
}

/**
 * What was drawn in the place of something.
 *
 * @param {Element} place
 * @param {string} tag
 * @param {[string, string][]} names
 * @param {string} text
 */
function again(place, tag, names, text) {
  for (const [name, value] of names) {
    const found = [...place.querySelectorAll(`[${name}="${CSS.escape(value)}"]`)].find(isUsable);
    if (found) return found;
  }
  return names.length || !text ? undefined : [...place.querySelectorAll(tag)].find((e) => e.textContent === text && isUsable(e));
}

/** @param {Element|null} node */
function focus(node) {
  if (node instanceof HTMLElement || node instanceof SVGElement) node.focus({ preventScroll: true });
}
