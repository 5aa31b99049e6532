/** Takes things out of JSON whose shape nobody has promised. */

/** @typedef {string|number|boolean|null|Json[]|{[key: string]: Json}} Json */

/**
 * @param {Json|undefined} node
 * @param {...string} keys
 * @returns {Json|undefined} what stands below
 */
export function at(node, ...keys) {
  return keys.reduce((/** @type {Json|undefined} */ here, key) => (typeof here === "object" && here !== null && !Array.isArray(here) ? here[key] : undefined), node);
}

/**
 * @param {Json|undefined} node
 * @returns {[string, Json][]}
 */
export function entries(node) {
  return typeof node === "object" && node !== null && !Array.isArray(node) ? Object.entries(node) : [];
}

/**
 * @param {Json|undefined} node
 * @returns {Json[]}
 */
export function list(node) {
  return Array.isArray(node) ? node : [];
}

/**
 * @param {Json|undefined} node
 * @returns {string} empty where there is no text
 */
export function text(node) {
  return typeof node === "string" ? node : "";
}

/**
 * @param {string} address
 * @returns {Promise<Json>}
 */
export async function load(address) {
  const answer = await fetch(address);
  if (!answer.ok) throw new Error(`${address} is answered ${answer.status}`);
  return answer.json();
}
