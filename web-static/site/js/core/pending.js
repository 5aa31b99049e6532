/**
 * What the edits that wait to be sent make of what the service answered last, so that they are seen at once and when a page
 * is opened again. Only what an edit says itself is shown: what follows from it the service works out, see `waits`.
 */
import { undoneHere } from "./back.js";
import { isMeant } from "./outbox.js";
import { barsCorrected, doubtsLeft, pageStates } from "./pending-map.js";
import { saidOf } from "./said-of.js";

/** @typedef {import("./outbox.js").Waiting} Waiting */
/** @typedef {import("./types.js").KeptChange} KeptChange */
/** @typedef {import("./types.js").PencilMark} PencilMark */

/** @param {Waiting} edit @returns {string} the route below its book, "/changes" */
function routeOf({ path }) {
  return /^\/api\/books\/[^/?]+(\/[^?]*)?/.exec(path)?.[1] ?? "";
}

/** @param {Waiting} edit whether it is about the map */
export function ofMap(edit) {
  return /^\/(corrections|pages\/.*)$/.test(routeOf(edit));
}

/** @param {Waiting} edit whether it is about the show's changes */
export function ofChanges(edit) {
  return routeOf(edit).startsWith("/changes");
}

/** @param {Waiting[]} edits @returns {number} of those that a plan hangs on */
export function planWaits(edits) {
  return edits.filter((e) => ofMap(e) || ofChanges(e) || routeOf(e) === "/settings").length;
}

/**
 * @param {Record<string, unknown>} now
 * @param {Record<string, unknown>} values null takes one out
 */
function merged(now, values) {
  return Object.fromEntries(Object.entries({ ...now, ...values }).filter(([, value]) => value !== null));
}

/**
 * The show's changes with those that wait.
 *
 * @param {KeptChange[]} changes
 * @param {Waiting[]} edits
 * @returns {KeptChange[]}
 */
export function changesNow(changes, edits) {
  let all = changes;
  for (const edit of edits.filter(ofChanges)) {
    const body = /** @type {Record<string, unknown> & {changes?: Record<string, unknown>[]}} */ (edit.body ?? {});
    const id = decodeURIComponent(/^\/changes\/(.+)$/.exec(routeOf(edit))?.[1] ?? "");
    if (edit.method === "POST") {
      const { who } = body;
      const added = (body.changes ?? [body]).map((change, i) => ({ ...(who ? { who } : {}), ...change, id: `waiting-${edit.key}-${i}`, when: new Date(edit.at).toISOString(), waits: true }));
      all = [...all, .../** @type {KeptChange[]} */ (/** @type {unknown} */ (added))];
    } else if (edit.method === "DELETE") all = all.filter((c) => c.id !== id);
    else all = all.map((c) => (c.id === id ? /** @type {KeptChange} */ (/** @type {unknown} */ ({ ...merged({ ...c }, body), waits: true })) : c));
  }
  return all;
}

/**
 * What was done, with the steps that wait.
 *
 * @param {import("./types.js").History} history
 * @param {Waiting[]} edits of the list it is of
 * @param {string} path of the list
 * @returns {import("./types.js").History}
 */
export function historyNow(history, edits, path) {
  const steps = edits.map((e) => ({ id: e.key, when: new Date(e.at).toISOString(), who: String(/** @type {Record<string, unknown>} */ (e.body ?? {}).who ?? ""), text: saidOf(e), waits: true }));
  const redo = undoneHere(path) || (steps.length ? 0 : history.redo);
  return { entries: [...steps.reverse(), ...history.entries], undo: history.undo + steps.length, redo };
}

/**
 * @param {import("./types.js").Settings} settings
 * @param {Waiting[]} edits
 */
export function settingsNow(settings, edits) {
  const said = edits.filter((e) => routeOf(e) === "/settings").map((e) => /** @type {Record<string, unknown>} */ (e.body ?? {}));
  return /** @type {import("./types.js").Settings} */ (/** @type {unknown} */ (said.reduce((/** @type {Record<string, unknown>} */ now, values) => merged(now, values), { ...settings })));
}

/**
 * @param {{written: PencilMark[]}} marks
 * @param {Waiting[]} edits
 */
function marksNow({ written }, edits) {
  let all = written;
  for (const edit of edits.filter((e) => routeOf(e) === "/marks")) {
    const { mark, written: on } = /** @type {{mark: PencilMark, written: boolean}} */ (edit.body);
    const others = all.filter((m) => m.bar !== mark.bar || m.mark !== mark.mark);
    all = on ? [...others, { ...mark, waits: true }] : others;
  }
  return { written: all };
}

/**
 * @param {import("./types.js").Book} book
 * @param {Waiting[]} edits
 */
function bookNow(book, edits) {
  const names = edits.filter((e) => routeOf(e) === "" && e.method === "PATCH").map((e) => /** @type {object} */ (e.body ?? {}));
  const states = pageStates(edits);
  const pages = book.pages.map((p) => ({ ...p, state: states.get(p.index) ?? p.state }));
  return Object.assign({ ...book, pages, waits: planWaits(edits) }, ...names);
}

/** @type {Record<string, (data: never, edits: Waiting[], path: string) => unknown>} */
const SHOWN = {
  "": (/** @type {import("./types.js").Book} */ book, edits) => bookNow(book, edits),
  "/map": (/** @type {import("./types.js").BarMap} */ map, edits) => ({ ...map, bars: barsCorrected(map.bars, edits.filter(ofMap)), waits: edits.filter(ofMap).length }),
  "/doubts": (/** @type {{doubts: import("./types.js").Finding[]}} */ { doubts }, edits) => ({ doubts: doubtsLeft(doubts, edits.filter(ofMap)) }),
  "/history": (/** @type {import("./types.js").History} */ history, edits, path) => historyNow(history, edits.filter(ofMap), path),
  "/changes": (/** @type {{changes: KeptChange[]}} */ list, edits) => ({ ...list, changes: changesNow(list.changes, edits) }),
  "/changes/history": (/** @type {import("./types.js").History} */ history, edits, path) => historyNow(history, edits.filter(ofChanges), path),
  "/settings": (/** @type {import("./types.js").Settings} */ settings, edits) => settingsNow(settings, edits),
  "/marks": (/** @type {{written: PencilMark[]}} */ marks, edits) => marksNow(marks, edits),
  "/plan": (/** @type {object} */ plan, edits) => ({ ...plan, waits: planWaits(edits) }),
  "/roadmap": (/** @type {object} */ road, edits) => ({ ...road, waits: planWaits(edits) }),
};

/**
 * @param {{books: import("./types.js").BookInfo[]}} shelf
 * @param {Waiting[]} edits of all books
 */
function shelfNow({ books }, edits) {
  const named = (/** @type {string} */ id) => edits.filter((e) => isMeant(e) && e.method === "PATCH" && e.path === `/api/books/${id}`).map((e) => /** @type {object} */ (e.body ?? {}));
  return { books: books.map((b) => Object.assign({ ...b }, ...named(b.id))) };
}

/**
 * An answer with the edits of its book that wait.
 *
 * @template T
 * @param {string} path that was asked
 * @param {T} data what was answered
 * @param {Waiting[]} edits of all books, oldest first
 * @returns {T}
 */
export function asItWillBe(path, data, edits) {
  if (path === "/api/books" && data !== undefined) return /** @type {T} */ (shelfNow(/** @type {never} */ (data), edits));
  const [, book, route = ""] = /^(\/api\/books\/[^/?]+)(\/[^?]*)?/.exec(path) ?? [];
  const show = SHOWN[route];
  if (!book || !show || data === undefined) return data;
  const own = edits.filter((e) => isMeant(e) && (e.path === book || e.path.startsWith(`${book}/`)));
  return own.length ? /** @type {T} */ (show(/** @type {never} */ (data), own, path)) : data;
}
