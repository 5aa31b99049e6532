import { later } from "./clock.js";
import { recall, remember, who } from "./store.js";

/**
 * Who else is at the book, and where. What this window says of itself goes with its live line: it is forgotten when that ends.
 *
 * @typedef {{id: string, who: string, room: string, page: number, bar: string}} Desk
 */

/** How long is waited while somebody goes from bar to bar. */
const AFTER_MS = 150;

/** @returns {string} a key nobody else has; also where the address is not secure */
function fresh() {
  return [...crypto.getRandomValues(new Uint8Array(8))].map((b) => b.toString(16).padStart(2, "0")).join("");
}

/** The same for all windows of this browser: a player is no mate of their own. */
function mine() {
  const known = recall("desk", "");
  if (known) return known;
  const made = fresh();
  remember("desk", made);
  return made;
}

const browser = mine();
const id = `${browser}-${fresh()}`;

let path = "";
let place = { room: "", page: 0, bar: "" };
let told = "";
let soon = false;
/** @type {Desk[]} */
let mates = [];
/** @type {Set<() => void>} */
const listeners = new Set();

/** @returns {string} what the live line is opened with */
export function deskId() {
  return id;
}

/** @returns {Desk[]} the others at the book */
export function others() {
  return mates;
}

/** @param {() => void} listener told whenever somebody came, went or is elsewhere */
export function whenElsewhere(listener) {
  listeners.add(listener);
}

/** @param {{desks?: Desk[]}} heard */
export function heardHere({ desks = [] }) {
  mates = desks.filter((desk) => !desk.id.startsWith(`${browser}-`));
  for (const listener of listeners) listener();
}

/**
 * Says which room of a book this window shows.
 *
 * @param {string} book its address
 * @param {string} room
 */
export function enter(book, room) {
  path = `${book}/here`;
  place = { room, page: 0, bar: "" };
}

/**
 * Says which page and bar are looked at.
 *
 * @param {number} page
 * @param {string} [bar]
 */
export function at(page, bar = "") {
  place = { ...place, page, bar };
  tell();
}

/** The line is open, for the first time or again: whoever listens is told from the beginning. */
export function lineOpen() {
  told = "";
  tell();
}

function tell() {
  if (soon || !path) return;
  soon = true;
  later(AFTER_MS, () => {
    soon = false;
    const body = JSON.stringify({ desk: id, who: who(), ...place });
    if (body === told) return;
    told = body;
    fetch(path, { method: "POST", headers: { "Content-Type": "application/json" }, body }).catch(() => (told = ""));
  });
}

/** @param {string} name @returns {string} two letters at most */
export function initials(name) {
  const words = name.trim().split(/[\s.,-]+/u).filter(Boolean);
  const letters = words.length > 1 ? words.map((w) => [...w][0]) : [...(words[0] ?? "?")];
  return letters.slice(0, 2).join("").toLocaleUpperCase();
}

const ROOMS = /** @type {Record<string, string>} */ ({ book: "at the pages", desk: "correcting", road: "at the road map", turns: "at the turns", practice: "practising", stand: "at the stand" });

/** @param {Desk} desk in words */
export function whereIs({ who: name, room, page }) {
  return `${name || "Somebody without a name"}, ${ROOMS[room] ?? "at the book"}${page ? `, page ${page}` : ""}`;
}
