/**
 * What whoever looks at the open book may do with it. What would be refused is not offered: the pages mark it by
 * `data-for`, the role it takes at least.
 *
 * @typedef {"phone"|"reader"|"corrector"|"owner"} Role
 */

/** On what only correctors and owners can do. */
export const CORRECTORS = { "data-for": "corrector" };
/** On what only owners can do. */
export const OWNERS = { "data-for": "owner" };

export const LOOKS = "You can look at this book. Changing it is for whoever owns it, or lets you correct it.";
const CORRECTS = "You can correct this book and its changes. Taking pages out, their order and the book in one file are for whoever owns it.";

/** What a reader may ask that is no GET: it changes nothing. */
const ASKS = /\/(corrections\/check|changes\/(check|understand|read)(\?.*)?|here)$/;

/** @type {Role} */
let role = "owner";

/** @param {Role|undefined} as what the service says of whoever asks */
export function heardRole(as) {
  role = as ?? "owner";
  document.body?.classList.toggle("as-reader", role === "reader");
  document.body?.classList.toggle("as-corrector", role === "corrector");
}

/** @returns {boolean} whether the book may be corrected, and its changes said */
export function mayCorrect() {
  return role === "owner" || role === "corrector";
}

/** @returns {boolean} whether all may be done with the book that can be done with one */
export function mayOwn() {
  return role === "owner";
}

/**
 * @param {string} method
 * @param {string} path
 * @returns {boolean} whether it is no use to ask
 */
export function isRefused(method, path) {
  return role === "reader" && method !== "GET" && path.startsWith("/api/books/") && !ASKS.test(path);
}

/** @param {string} room @returns {string} what a guest is told in a room, nothing where all is offered */
export function roleText(room) {
  if (role === "reader") return LOOKS;
  return role === "corrector" && room === "book" ? CORRECTS : "";
}
