import { afterOwn, drop, newKey, nothingWaits, put, send, thing, waiting, whenMade } from "./outbox.js";

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

/** @param {Waiting} said that could not be sent */
export async function keepBack(said) {
  const edit = { ...said, match: afterOwn(said.path, said.match) };
  await put(edit);
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
 * @returns {Promise<boolean>} whether there was one; if not, it is the service's to take one back
 */
export async function takeBack(path) {
  const of = thing(path);
  if (nothingWaits() && !done.some((s) => s.of === of)) return false;
  await send().catch(() => 0);
  const left = (await waiting().catch(() => [])).filter((e) => e.state === "waiting" && thing(e.path) === of);
  const step = lastStep(of, left);
  if (!step) return false;
  done = done.filter((s) => s !== step);
  undone.push(step);
  await swap(step.after, step.before);
  return true;
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
  done.push(step);
  await swap(step.before, step.after);
  return true;
}

/**
 * @param {Waiting|undefined} from
 * @param {Waiting|undefined} to
 */
async function swap(from, to) {
  if (to) await put(to);
  if (from && from.key !== to?.key) await drop(from.key);
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
  const before = (await waiting()).find((e) => e.key === key && e.state === "waiting");
  if (!before) return false;
  const body = /** @type {Record<string, unknown> & {changes?: Record<string, unknown>[]}} */ (before.body);
  const all = (body.changes ?? [body]).map((c, i) => (i === at && values ? without(c, values) : c)).filter((_, i) => values !== undefined || i !== at);
  // another key, for the first one may have come to the service, though its answer never came here
  const after = all.length ? { ...before, key: newKey(), body: body.changes ? { ...body, changes: all } : all[0] } : undefined;
  await swap(before, after);
  newStep({ of: thing(before.path), before, after });
  return true;
}

/**
 * @param {Record<string, unknown>} change
 * @param {Record<string, unknown>} values
 */
function without(change, values) {
  return Object.fromEntries(Object.entries({ ...change, ...values }).filter(([, value]) => value !== null));
}
