import { recall, remember } from "./store.js";

/**
 * Edits that could not be sent wait in the browser's own store until the service answers. Each has a key, so that
 * the service makes it once only, however often it is sent. None goes away but by being made, or by a person.
 *
 * @typedef {object} Waiting
 * @property {string} key
 * @property {number} at milliseconds since 1970
 * @property {number} [seq] its place in the order, given when it is put here: two edits may be made in one millisecond
 * @property {number} [nth] its place among those that took the place of each other
 * @property {boolean} [takenBack] it is not meant any more; where the service had made it all the same it is taken back there
 * @property {string} method
 * @property {string} path
 * @property {unknown} [body]
 * @property {string} [match] the revision that was seen
 * @property {"waiting"|"clash"|"refused"} state
 * @property {string} [why] in the service's words
 * @property {string} [now] the revision there is, after a clash
 */

const STORE = "outbox";

/** What may wait: edits that say by themselves what they mean. A step back doesn't: it is about the last step there is. */
const MAY_WAIT = [
  /^POST \/api\/books\/[^/]+\/(corrections(\?pages=changed)?|changes)$/,
  /^(PATCH|DELETE) \/api\/books\/[^/]+\/changes\/[^/]+$/,
  /^POST \/api\/books\/[^/]+\/(marks|pages\/[^/]+\/line(\?pages=changed)?)$/,
  /^PUT \/api\/books\/[^/]+\/settings$/,
  /^PATCH \/api\/books\/[^/]+$/,
];

/**
 * @param {string} method
 * @param {string} path
 */
export function mayWait(method, path) {
  return MAY_WAIT.some((form) => form.test(`${method} ${path}`));
}

/** @returns {string} a key nobody else has; also where the address is not secure, as on a local net */
export function newKey() {
  return [...crypto.getRandomValues(new Uint8Array(16))].map((b) => b.toString(16).padStart(2, "0")).join("");
}

/** @type {Promise<IDBDatabase>|undefined} */
let opened;

function open() {
  opened ??= new Promise((resolve, reject) => {
    const request = indexedDB.open("barmap", 1);
    request.addEventListener("upgradeneeded", () => request.result.createObjectStore(STORE, { keyPath: "key" }));
    request.addEventListener("success", () => resolve(request.result));
    request.addEventListener("error", () => reject(request.error ?? new Error("this browser gives no room to keep it in")));
  });
  return opened;
}

/**
 * @template T
 * @param {IDBTransactionMode} mode
 * @param {(store: IDBObjectStore) => IDBRequest<T>} use
 * @returns {Promise<T>} when it is safely written
 */
async function within(mode, use) {
  const database = await open();
  return new Promise((resolve, reject) => {
    const transaction = database.transaction(STORE, mode);
    const request = use(transaction.objectStore(STORE));
    transaction.addEventListener("complete", () => resolve(request.result));
    transaction.addEventListener("abort", () => reject(transaction.error ?? new Error("this browser has no room left to keep it in")));
  });
}

/** @param {Waiting} a @param {Waiting} b */
function inOrder(a, b) {
  return (a.seq ?? 0) - (b.seq ?? 0) || (a.nth ?? 0) - (b.nth ?? 0) || a.at - b.at;
}

/** @param {Waiting} edit @returns {boolean} whether it is to be sent and made */
export function isMeant(edit) {
  return edit.state === "waiting" && !edit.takenBack;
}

/** Whether this window has seen that nothing waits, and no window has put anything there since. */
let empty = false;
/** @type {BroadcastChannel|undefined} */
let windows;

/** @returns {boolean} so that an edit need not wait for the store to be looked at */
export function nothingWaits() {
  return empty;
}

/** @returns {Promise<Waiting[]>} oldest first */
export async function waiting() {
  if (!windows) {
    windows = new BroadcastChannel("barmap-outbox");
    windows.addEventListener("message", () => {
      empty = false;
      tell();
    });
  }
  /** @type {Waiting[]} */
  const all = await within("readonly", (store) => store.getAll());
  empty = all.length === 0;
  return all.sort(inOrder);
}

/** @param {string} book its address @returns {Promise<Waiting[]>} what will be sent of a book, oldest first; what clashed or was refused will not */
export async function waitingOf(book) {
  if (empty) return [];
  const all = await waiting().catch(() => []);
  return all.filter((edit) => isMeant(edit) && (edit.path === book || edit.path.startsWith(`${book}/`)));
}

/** @type {Set<() => void>} */
const listeners = new Set();

/** @param {() => void} listener told whenever something in the outbox became different */
export function whenDifferent(listener) {
  listeners.add(listener);
}

function tell() {
  for (const listener of listeners) listener();
}

/** @type {(edit: Waiting) => void} */
let madeOne = () => {};

/** @param {(edit: Waiting) => void} listener told of each edit that was sent and made */
export function whenMade(listener) {
  madeOne = listener;
}

/** @param {Waiting} edit @returns {Promise<Waiting>} as it is kept */
export async function put(edit) {
  empty = false;
  const kept = { ...edit };
  // the place and the edit are written in one step, which all windows wait for
  await within("readwrite", (store) => {
    const all = store.getAll();
    all.addEventListener("success", () => {
      kept.seq ??= Math.max(0, ...all.result.map((/** @type {Waiting} */ e) => e.seq ?? 0)) + 1;
      store.put(kept);
    });
    return all;
  });
  empty = false;
  windows?.postMessage("put");
  tell();
  return kept;
}

/** @param {string} key */
export async function drop(key) {
  await within("readwrite", (store) => store.delete(key));
  windows?.postMessage("drop");
  tell();
}

/**
 * Alters an edit as it is at this moment, in one step, which all windows wait for: what another window did with it stays.
 *
 * @param {string} key
 * @param {(edit: Waiting) => Waiting|undefined} how nothing where it goes
 * @returns {Promise<boolean>} whether it was there, and not taken back
 */
async function alter(key, how) {
  let meant = false;
  await within("readwrite", (store) => {
    const kept = store.get(key);
    kept.addEventListener("success", () => {
      /** @type {Waiting|undefined} */
      const edit = kept.result;
      if (!edit || edit.takenBack) return;
      meant = true;
      const after = how(edit);
      if (after) store.put(after);
      else store.delete(key);
    });
    return kept;
  });
  windows?.postMessage("alter");
  tell();
  return meant;
}

/** @type {(edit: Waiting) => Promise<"made"|"later"|"not">} */
let stepBack = () => Promise.resolve("later");

/** @param {(edit: Waiting) => Promise<"made"|"later"|"not">} way how an edit that was taken back is told to the service */
export function whenTakenBack(way) {
  stepBack = way;
}

/** @type {Promise<number>|undefined} */
let sending;

/**
 * Sends what waits, oldest first, as far as the service answers.
 *
 * @returns {Promise<number>} how many were made
 */
export function send() {
  sending ??= sendAll().finally(() => (sending = undefined));
  return sending;
}

async function sendAll() {
  const locks = navigator.locks;
  // of several windows one sends; where there are no locks the keys keep an edit from being made twice
  return locks ? locks.request("barmap-outbox", sendEach) : sendEach();
}

async function sendEach() {
  let made = 0;
  for (;;) {
    const next = (await waiting()).find((edit) => edit.state === "waiting");
    if (!next) return made;
    const outcome = await sendOne(next);
    if (outcome === "made" && !next.takenBack) made++;
    if (outcome === "later") return made;
  }
}

/**
 * @param {Waiting} edit
 * @returns {Promise<"made"|"later"|"not">}
 */
async function sendOne(edit) {
  if (edit.takenBack) return stepBack(edit);
  /** @type {Record<string, string>} */
  const headers = { "Accept": "application/json, application/problem+json", "Content-Type": "application/json", "Idempotency-Key": edit.key };
  if (edit.match !== undefined) headers["If-Match"] = `"${edit.match}"`;
  let answer;
  try {
    answer = await fetch(edit.path, { method: edit.method, headers, body: edit.body === undefined ? undefined : JSON.stringify(edit.body), cache: "no-store" });
  } catch {
    return "later";
  }
  if (isLater(answer.status)) return "later";
  const text = await answer.text();
  if (answer.ok) {
    // taken back while it was under way: the next to be sent is that
    if (!(await alter(edit.key, () => undefined))) return "not";
    madeOne(edit);
    await moveOn(edit, (answer.headers.get("ETag") ?? "").replace(/^W\//, "").replace(/"/g, ""));
    return "made";
  }
  const { detail, revision } = problem(text);
  await alter(edit.key, (e) => ({ ...e, state: answer.status === 412 ? "clash" : "refused", why: detail || `It answered ${answer.status}.`, now: revision }));
  return "not";
}

/**
 * Whoever opens barmap with its key again has an edit sent; where others tried wrong keys it waits a little.
 *
 * @param {number} status
 * @returns {boolean} whether that says nothing of what was sent
 */
export function isLater(status) {
  return status >= 500 || status === 401 || status === 429;
}

/** @param {string} text @returns {{detail: string, revision?: string}} */
function problem(text) {
  try {
    const { detail, revision } = JSON.parse(text);
    return { detail: String(detail ?? ""), revision: revision === undefined ? undefined : String(revision) };
  } catch {
    return { detail: "" };
  }
}

/**
 * What was meant for the same revision as an edit that has been made is meant for the one that came of it.
 *
 * @param {Waiting} made
 * @param {string} revision
 */
export async function moveOn(made, revision) {
  if (revision === "") return;
  wasMade(made.path, made.match, revision);
  for (const edit of await waiting()) {
    if (thing(edit.path) !== thing(made.path)) continue;
    if (edit.state === "clash" || edit.match === made.match) await alter(edit.key, (e) => movedOn(e, made, revision));
  }
}

/**
 * @param {Waiting} edit
 * @param {Waiting} made
 * @param {string} revision
 * @returns {Waiting}
 */
function movedOn(edit, made, revision) {
  if (edit.state === "clash") return { ...edit, now: revision };
  return edit.state === "waiting" && edit.match === made.match ? { ...edit, match: revision } : edit;
}

/** So many of the last edits made are remembered; what is kept of a book is fresh again a few seconds after each. */
const MOST_MADE = 50;

/** @returns {[thing: string, from: string, to: string][]} what revision came of which by edits of this browser */
function ownEdits() {
  return recall("made", /** @type {[string, string, string][]} */ ([]));
}

/**
 * Remembers that nothing but an edit of this browser lies between two revisions.
 *
 * @param {string} path of the edit
 * @param {string|undefined} from
 * @param {string} to
 */
export function wasMade(path, from, to) {
  if (from !== undefined && to !== "" && from !== to) remember("made", [...ownEdits(), [thing(path), from, to]].slice(-MOST_MADE));
}

/**
 * @param {string} path
 * @param {string|undefined} match the revision that was seen, in what this browser has kept perhaps
 * @returns {string|undefined} the one that has come of it by edits of this browser alone
 */
export function afterOwn(path, match) {
  const of = thing(path);
  return ownEdits().reduce((now, [what, from, to]) => (what === of && from === now ? to : now), match);
}

/** What of a book has the map's revision: the map itself, its pages and its title. */
const OF_MAP = ["", "corrections", "pages", "undo", "redo"];

/** @param {string} path @returns {string} what the revision of an edit is of */
export function thing(path) {
  const [, book, rest = ""] = /^\/api\/books\/([^/?]+)(?:\/([^/?]+))?/.exec(path) ?? [];
  return `${book}/${OF_MAP.includes(rest) ? "" : rest}`;
}
