import { afterOwn, drop, isLater, isMeant, moveOn, newKey, nothingWaits, put, send, thing, waiting, whenMade, whenTakenBack } from "./outbox.js";

/**
 * The steps of this window that still wait to be sent, so that they can be taken back and made again without the service.
 * After the window was closed the edits themselves are the steps, the last one first.
 *
 * @typedef {import("./outbox.js").Waiting} Waiting
 * @typedef {{of: string, before?: Waiting, after?: Waiting}} Step an edit before and after it; of what book and list
 */

/** @type {Step[]} */
let done = [];
/** @type {Step[]} */
let undone = [];

/** Of these edits the service can take the last one back. */
const STEP = /^\/api\/books\/[^/]+\/(corrections|changes|pages\/[^/]+\/line)([/?]|$)/;

/** @param {Waiting} said that could not be sent */
export async function keepBack(said) {
  const edit = await put({ ...said, match: afterOwn(said.path, said.match) });
  newStep({ of: thing(edit.path), after: edit });
}

/** @param {Step} step */
function newStep(step) {
  done.push(step);
  undone = undone.filter((s) => s.of !== step.of);
}

/** @param {string} path of an edit that the service has made: the steps are its own again */
export function stepMade(path) {
  const of = thing(path);
  done = done.filter((s) => s.of !== of);
  undone = undone.filter((s) => s.of !== of);
}

whenMade((edit) => {
  const of = thing(edit.path);
  done = done.filter((s) => s.of !== of || (s.after !== undefined && s.after.key !== edit.key));
});

/** @param {string} path @returns {number} how many steps could be made again here */
export function undoneHere(path) {
  return undone.filter((s) => s.of === thing(path)).length;
}

/**
 * Takes the last step that waits back; what can be sent is sent before.
 *
 * @param {string} path of a step back
 * @returns {Promise<"here"|"sent"|"none">} whether there was one; if not, it is the service's to take one back, which perhaps was sent just now
 */
export async function takeBack(path) {
  const of = thing(path);
  if (nothingWaits() && !done.some((s) => s.of === of)) return "none";
  const sent = await send().catch(() => 0);
  const left = (await waiting().catch(() => [])).filter((e) => isMeant(e) && thing(e.path) === of && STEP.test(e.path));
  const step = lastStep(of, left);
  if (!step) return sent ? "sent" : "none";
  done = done.filter((s) => s !== step);
  undone.push({ ...step, before: await swap(step.after, step.before) });
  return "here";
}

/**
 * @param {string} of
 * @param {Waiting[]} left
 * @returns {Step|undefined}
 */
function lastStep(of, left) {
  const step = done.filter((s) => s.of === of).at(-1);
  if (step && (!step.after || left.some((e) => e.key === step.after?.key))) return step;
  const after = left.at(-1);
  return after && { of, after };
}

/**
 * Makes the step taken back last again.
 *
 * @param {string} path of a step again
 * @returns {Promise<boolean>} whether there was one here
 */
export async function makeAgain(path) {
  const step = undone.filter((s) => s.of === thing(path)).at(-1);
  if (!step) return false;
  undone = undone.filter((s) => s !== step);
  done.push({ ...step, after: await swap(step.before, step.after) });
  return true;
}

/**
 * Puts one edit in the place of another. The first may have come to the service though its answer never came here, and
 * nobody can know while it doesn't answer: it stays as one that was taken back, and the other has a key of its own.
 *
 * @param {Waiting|undefined} from
 * @param {Waiting|undefined} to
 * @returns {Promise<Waiting|undefined>} as it is kept
 */
async function swap(from, to) {
  const before = from && (await put({ ...from, takenBack: true }));
  if (!to) return undefined;
  const place = before ?? to;
  return put({ ...to, key: newKey(), seq: place.seq, nth: (place.nth ?? 0) + 1, match: afterOwn(to.path, to.match), state: "waiting", takenBack: false });
}

whenTakenBack(async (edit) => {
  const [book] = /^\/api\/books\/[^/?]+/.exec(edit.path) ?? [""];
  const asked = await tell("DELETE", `${book}/edits/${edit.key}`, {});
  if (!asked) return "later";
  if (asked.ok && !asked.body.made) {
    await drop(edit.key);
    return "made";
  }
  const list = edit.path.startsWith(`${book}/changes`) ? "/changes" : "";
  const back = asked.ok ? await tell("POST", `${book}${list}/undo`, { "If-Match": `"${asked.body.revision}"`, "Idempotency-Key": `${edit.key}-back` }) : asked;
  if (!back) return "later";
  if (!back.ok) {
    const why = back.status === 412 ? "It had been made before you took it back, and the book was changed since. Take it back by hand where it is." : String(back.body.detail ?? "");
    await put({ ...edit, state: "refused", why });
    return "not";
  }
  await drop(edit.key);
  await moveOn(edit, back.revision);
  return "made";
});

/**
 * @param {string} method
 * @param {string} path
 * @param {Record<string, string>} headers
 * @returns {Promise<{ok: boolean, status: number, revision: string, body: Record<string, unknown>}|undefined>} nothing where the service is to be asked later
 */
async function tell(method, path, headers) {
  const answer = await fetch(path, { method, headers: { Accept: "application/json, application/problem+json", ...headers }, cache: "no-store" }).catch(() => undefined);
  if (!answer || isLater(answer.status)) return undefined;
  const body = await answer.json().catch(() => ({}));
  return { ok: answer.ok, status: answer.status, revision: (answer.headers.get("ETag") ?? "").replace(/^W\//, "").replace(/"/g, ""), body };
}

/**
 * Says a change that still waits to be added otherwise, or not at all.
 *
 * @param {string} key of the edit
 * @param {number} at which change of it
 * @param {Record<string, unknown>|undefined} values null takes one out; none for taking the change out
 * @returns {Promise<boolean>} whether it still waited
 */
export async function sayOtherwise(key, at, values) {
  const before = (await waiting()).find((e) => e.key === key && isMeant(e));
  if (!before) return false;
  const body = /** @type {Record<string, unknown> & {changes?: Record<string, unknown>[]}} */ (before.body);
  const all = (body.changes ?? [body]).map((c, i) => (i === at && values ? without(c, values) : c)).filter((_, i) => values !== undefined || i !== at);
  const after = all.length ? { ...before, body: body.changes ? { ...body, changes: all } : all[0] } : undefined;
  newStep({ of: thing(before.path), before, after: await swap(before, after) });
  return true;
}

/**
 * @param {Record<string, unknown>} change
 * @param {Record<string, unknown>} values
 */
function without(change, values) {
  return Object.fromEntries(Object.entries({ ...change, ...values }).filter(([, value]) => value !== null));
}
