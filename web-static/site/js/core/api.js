import { keepBack, makeAgain, sayOtherwise, stepMade, takeBack } from "./back.js";
import { heardRole, isRefused, LOOKS } from "./may.js";
import { afterOwn, mayWait, newKey, nothingWaits, send, waiting, wasMade } from "./outbox.js";
import { asItWillBe } from "./pending.js";

/** An answer of the service that says no, with its reason in plain words. */
export class ApiError extends Error {
  /**
   * @param {number} status 0 when nothing answered
   * @param {string} message
   * @param {unknown} [body] what came with it
   */
  constructor(status, message, body) {
    super(message);
    this.name = "ApiError";
    this.status = status;
    this.body = body;
  }

  /** Somebody else changed the thing in between. */
  get stale() {
    return this.status === 412;
  }
}

/** The service doesn't answer; the edit waits in this browser until it does, and the pages show it already. */
export class Kept extends ApiError {
  constructor() {
    super(0, "barmap is not answering. What you changed is kept in this browser and sent when it does.");
    this.name = "Kept";
  }
}

/** @type {(when: Date|undefined) => void} */
let heard = () => {};

/** @param {(when: Date|undefined) => void} listener told with every answer: when it was kept, nothing where it comes from the service now */
export function whenAnswered(listener) {
  heard = listener;
}

/** @typedef {{title: string, detail: string, begin: string}} Shut `begin` is where the link that this browser has leads to; empty without one */
/** @type {(shut: Shut) => void} */
let shut = () => {};

/** @param {(shut: Shut) => void} listener told when the service doesn't show something to this browser */
export function whenShut(listener) {
  shut = listener;
}

/** @param {unknown} error @returns {boolean} whether somebody else changed the thing in between */
export function isStale(error) {
  return error instanceof ApiError && error.stale;
}

/** @param {unknown} error @returns {boolean} whether nothing answered, so that what was asked is not known */
export function isSilent(error) {
  return error instanceof ApiError && error.status === 0;
}

/** @param {unknown} error @returns {boolean} whether there is no such thing */
export function isMissing(error) {
  return error instanceof ApiError && error.status === 404;
}

/** @returns {boolean} whether barmap runs on the machine that shows its pages */
export function isHere() {
  return ["127.0.0.1", "localhost", "[::1]"].includes(location.hostname);
}

const SILENT = isHere() ? "barmap is not answering. Is the program still running on this machine?" : "barmap is not answering. Is it still running where it runs, and are you in its net?";

/** @param {string|null} etag */
function bare(etag) {
  return (etag ?? "").replace(/^W\//, "").replace(/^"|"$/g, "");
}

/**
 * An answer of the service with the revision it is of.
 *
 * @template T
 * @typedef {{data: T, revision: string}} Answered
 */

/**
 * Talks to the service. What it answers is as the caller expects it: the service's side is held to
 * its schemas by its own tests.
 *
 * @template T
 * @param {string} method
 * @param {string} path
 * @param {{body?: unknown, match?: string, raw?: boolean, answer?: string}} [options] `raw`: without the edits that wait to be sent; `answer`: a query that says how
 *   much is answered, which an edit that waits has no use for
 * @returns {Promise<Answered<T>>}
 */
export async function call(method, path, { body, match, raw = false, answer: how = "" } = {}) {
  /** @type {Record<string, string>} */
  const headers = { Accept: "application/json, application/problem+json" };
  if (body !== undefined) headers["Content-Type"] = "application/json";
  if (match !== undefined) headers["If-Match"] = `"${match}"`;
  const key = mayWait(method, path) ? newKey() : "";
  if (key) headers["Idempotency-Key"] = key;
  if (isRefused(method, path)) throw new ApiError(403, LOOKS);
  const done = method === "GET" ? "none" : await here(method, path, body);
  if (done === "here") throw new Kept();
  let response;
  try {
    const sent = done === "sent" || (key && (await sendEarlier()));
    // edits of this browser that waited, sent just now, are no clash with what comes after them
    if (sent && match !== undefined) headers["If-Match"] = `"${afterOwn(path, match)}"`;
    response = await fetch(how ? `${path}?${how}` : path, {
      method,
      headers,
      body: body === undefined ? undefined : JSON.stringify(body),
      cache: "no-store",
    });
  } catch {
    if (!key) throw new ApiError(0, SILENT);
    await keepBack({ key, at: Date.now(), method, path, body, match, state: "waiting" });
    throw new Kept();
  }
  if (key && response.ok) stepMade(path);
  if (method === "GET" && (response.status === 401 || response.status === 403)) {
    const said = parse(await response.clone().text());
    shut({ title: textOf(said, "title"), detail: textOf(said, "detail"), begin: textOf(said, "begin") });
  }
  /** @type {Answered<T>} */
  const answer = await answered(response);
  if (key) wasMade(path, match, answer.revision);
  if (method === "GET" && /^\/api\/books\/[^/?]+$/.test(path)) heardRole(/** @type {{as?: import("./may.js").Role}} */ (answer.data).as);
  return method === "GET" && !raw && !nothingWaits() ? { ...answer, data: asItWillBe(path, answer.data, await waiting().catch(() => [])) } : answer;
}

/**
 * What is about an edit that still waits is done in this browser: it is said otherwise, taken back, made again.
 *
 * @param {string} method
 * @param {string} path
 * @param {unknown} body
 * @returns {Promise<"here"|"sent"|"none">} whether it was done here; if not, whether it is about what was sent just now
 */
async function here(method, path, body) {
  const [, step] = /^\/api\/books\/[^/]+(?:\/changes)?\/(undo|redo)(?:\?.*)?$/.exec(path) ?? [];
  if (step === "undo") return takeBack(path);
  if (step === "redo") return (await makeAgain(path)) ? "here" : "none";
  const [, key, at] = /\/changes\/waiting-(\w+)-(\d+)$/.exec(path) ?? [];
  if (!key) return "none";
  if (await sayOtherwise(key, Number(at), method === "DELETE" ? undefined : /** @type {Record<string, unknown>} */ (body))) return "here";
  throw new ApiError(404, "This edit has been sent meanwhile. Look at it again, then make your step once more.");
}

/**
 * What was changed before is made before: edits keep their order.
 *
 * @returns {Promise<boolean>} whether there were some
 */
async function sendEarlier() {
  if (nothingWaits()) return false;
  const before = await waiting().catch(() => []);
  if (before.length === 0) return false;
  await send();
  if ((await waiting()).some((edit) => edit.state === "waiting")) throw new Error("barmap doesn't answer");
  return true;
}

/**
 * @template T
 * @param {Response} response
 * @returns {Promise<Answered<T>>}
 */
async function answered(response) {
  const text = await response.text();
  const data = parse(text);
  if (!response.ok) {
    throw new ApiError(response.status, reason(data, `That did not work (${response.status}).`), data);
  }
  const kept = response.headers.get("X-Barmap-Kept");
  heard(kept ? new Date(kept) : undefined);
  return {
    data: /** @type {T} */ (data),
    revision: bare(response.headers.get("ETag")) || textOf(data, "revision"),
  };
}

/**
 * Writes what was meant for a revision that was seen. Pages being read make new revisions all the
 * time: when only they came in between, it is written again and nobody is asked.
 *
 * @template T
 * @param {string} seen the revision
 * @param {(match: string) => Promise<T>} step
 * @param {() => Promise<string|undefined>} look the revision there is now; nothing when what the
 *   step is about is not as it was seen
 * @returns {Promise<T>}
 */
export async function write(seen, step, look) {
  let match = seen;
  for (let left = 5; ; left--) {
    try {
      return await step(match);
    } catch (error) {
      const now = isStale(error) && left > 0 ? await look() : undefined;
      if (now === undefined) throw error;
      match = now;
    }
  }
}

/** @param {string} text @returns {unknown} */
function parse(text) {
  if (!text) return undefined;
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

/**
 * @param {unknown} data an object, or not
 * @param {string} key
 * @returns {string} what it has under the key, or nothing
 */
function textOf(data, key) {
  const value = typeof data === "object" && data !== null ? Reflect.get(data, key) : undefined;
  return String(value ?? "");
}

/**
 * @param {unknown} data a problem of the service (RFC 9457), or something else
 * @param {string} otherwise
 */
function reason(data, otherwise) {
  return textOf(data, "detail") || textOf(data, "title") || otherwise;
}

/**
 * @template T
 * @param {string} path
 * @returns {Promise<T>} only the body
 */
export async function get(path) {
  return /** @type {Answered<T>} */ (await call("GET", path)).data;
}

/**
 * @param {string} path
 * @returns {Promise<Blob>} what is there, a file or text
 */
export async function file(path) {
  const response = await fetch(path, { cache: "no-store" }).catch(() => undefined);
  if (!response) throw new ApiError(0, SILENT);
  if (!response.ok) {
    const said = parse(await response.text());
    throw new ApiError(response.status, reason(said, `That did not work (${response.status}).`), said);
  }
  return response.blob();
}

/**
 * @template {keyof import("./types.js").BookAnswers} R
 * @param {string} book
 * @param {R} route below the book's address
 * @returns {Promise<import("./types.js").BookAnswers[R]>}
 */
export function read(book, route) {
  return get(bookPath(book, route));
}

/**
 * What the service has, and its plan goes by, without what waits to be sent.
 *
 * @template {keyof import("./types.js").BookAnswers} R
 * @param {string} book
 * @param {R} route below the book's address
 * @returns {Promise<import("./types.js").BookAnswers[R]>}
 */
export async function readRaw(book, route) {
  return /** @type {Answered<import("./types.js").BookAnswers[R]>} */ (await call("GET", bookPath(book, route), { raw: true })).data;
}

/**
 * Sends files with progress.
 *
 * @template T
 * @param {string} path
 * @param {File[]} files
 * @param {(share: number) => void} progress 0 to 1
 * @param {string} [match] the revision that was seen
 * @returns {Promise<T>}
 */
export function upload(path, files, progress, match) {
  return new Promise((resolve, reject) => {
    const form = new FormData();
    for (const file of files) form.append("files", file, file.name);
    const request = new XMLHttpRequest();
    request.open("POST", path);
    request.setRequestHeader("Accept", "application/json, application/problem+json");
    if (match !== undefined) request.setRequestHeader("If-Match", `"${match}"`);
    request.upload.addEventListener("progress", (event) => {
      if (event.lengthComputable) progress(event.loaded / event.total);
    });
    request.addEventListener("load", () => {
      const data = parse(request.responseText);
      if (request.status >= 200 && request.status < 300) resolve(/** @type {T} */ (data));
      else reject(new ApiError(request.status, reason(data, "The files were not taken."), data));
    });
    request.addEventListener("error", () => reject(new ApiError(0, SILENT)));
    request.send(form);
  });
}

/**
 * @param {string} book
 * @param {string} [rest]
 */
export function bookPath(book, rest = "") {
  return `/api/books/${encodeURIComponent(book)}${rest}`;
}

/**
 * @param {string} book
 * @param {string} page
 * @param {number} [width]
 */
export function imagePath(book, page, width) {
  const query = width ? `?width=${width}` : "";
  return bookPath(book, `/pages/${encodeURIComponent(page)}/image${query}`);
}

/**
 * @param {string} book
 * @param {string} page
 * @param {string} bar
 * @param {number} [width]
 * @param {number} [bars] so many entries from that bar on, as far as its line goes
 */
export function cropPath(book, page, bar, width = 900, bars = 1) {
  return bookPath(book, `/pages/${encodeURIComponent(page)}/crop?bar=${encodeURIComponent(bar)}&width=${width}&bars=${bars}`);
}
