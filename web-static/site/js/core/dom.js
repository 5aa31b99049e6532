/**
 * Makes elements. Text always becomes a text node: nothing from a page or a person is ever markup.
 */

const SVG = "http://www.w3.org/2000/svg";

/** @typedef {Node|string|number|null|undefined|false} Child */
/** @typedef {{[type in keyof HTMLElementEventMap]?: (event: HTMLElementEventMap[type]) => void}} Listeners */
/** @typedef {{on?: Listeners} & {[name: string]: string|number|boolean|null|undefined|Listeners}} Props */

/**
 * @param {Element} node
 * @param {Props} props
 */
function dress(node, props) {
  for (const [key, value] of Object.entries(props)) {
    if (value === undefined || value === null || value === false) continue;
    if (key === "text") node.textContent = String(value);
    else if (typeof value === "object") {
      for (const [type, listener] of Object.entries(value)) node.addEventListener(type, /** @type {EventListener} */ (listener));
    } else if (key === "value" && "value" in node) node.value = value;
    else node.setAttribute(key, value === true ? "" : String(value));
  }
}

/**
 * @param {Element} node
 * @param {Child[]} children
 */
function fill(node, children) {
  for (const child of children.flat()) {
    if (child === null || child === undefined || child === false) continue;
    node.append(child instanceof Node ? child : String(child));
  }
}

/**
 * Makes an HTML element.
 *
 * @template {keyof HTMLElementTagNameMap} T
 * @param {T} tag
 * @param {Props} [props] attributes; `text`, `value`, `on: {event: listener}`
 * @param {...(Child|Child[])} children
 * @returns {HTMLElementTagNameMap[T]}
 */
export function el(tag, props = {}, ...children) {
  const node = document.createElement(tag);
  fill(node, /** @type {Child[]} */ (children.flat()));
  dress(node, props);
  return node;
}

/**
 * Makes an SVG element.
 *
 * @template {keyof SVGElementTagNameMap} T
 * @param {T} tag
 * @param {Props} [props]
 * @param {...(Child|Child[])} children
 * @returns {SVGElementTagNameMap[T]}
 */
export function svg(tag, props = {}, ...children) {
  const node = document.createElementNS(SVG, tag);
  fill(node, /** @type {Child[]} */ (children.flat()));
  dress(node, props);
  return node;
}

/**
 * Replaces everything inside a node.
 *
 * @param {Element} node
 * @param {...(Child|Child[])} children
 */
export function show(node, ...children) {
  node.replaceChildren();
  fill(node, /** @type {Child[]} */ (children.flat()));
}

/**
 * Finds an element that the page is known to have.
 *
 * @param {string} selector
 * @param {ParentNode} [root]
 * @returns {HTMLElement}
 */
export function need(selector, root = document) {
  const node = root.querySelector(selector);
  if (!(node instanceof HTMLElement)) throw new Error(`the page has no ${selector}`);
  return node;
}

/**
 * A button of the usual kind.
 *
 * @param {string} label
 * @param {(event: Event) => void} action
 * @param {Props} [props]
 * @param {...Child} before what stands before the label, an icon for instance
 * @returns {HTMLButtonElement}
 */
export function button(label, action, props = {}, ...before) {
  return el("button", { type: "button", class: "btn", ...props, on: { click: action } }, ...before, label);
}
