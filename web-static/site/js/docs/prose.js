/** Descriptions as they stand in the files: paragraphs, `code`, **what matters**. */

import { el } from "../core/dom.js";

const INLINE = /`([^`]+)`|\*\*([^*]+)\*\*/g;

/**
 * @param {string} words
 * @returns {(Node|string)[]}
 */
export function inline(words) {
  /** @type {(Node|string)[]} */
  const parts = [];
  let done = 0;
  for (const found of words.matchAll(INLINE)) {
    parts.push(words.slice(done, found.index), found[1] ? el("code", { text: found[1] }) : el("b", { text: found[2] ?? "" }));
    done = found.index + found[0].length;
  }
  parts.push(words.slice(done));
  return parts;
}

/**
 * @param {string} words
 * @returns {HTMLElement[]}
 */
export function paragraphs(words) {
  return words
    .split(/\n\s*\n/)
    .filter((paragraph) => paragraph.trim())
    .map((paragraph) => el("p", {}, inline(paragraph.replaceAll("\n", " "))));
}
