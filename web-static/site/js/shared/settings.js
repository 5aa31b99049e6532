import { bookPath, call, isStale, Kept } from "../core/api.js";
import { complain, toast } from "../core/toast.js";

/** @typedef {import("../core/types.js").Settings} Settings */

/**
 * Keeps some of a book's settings, all others as they are.
 *
 * @param {string} book
 * @param {(now: Settings) => object} values what becomes different; null takes a key out
 * @returns {Promise<Settings|undefined>} how they were before; nothing where it was not kept
 */
export async function keepSettings(book, values) {
  try {
    /** @type {import("../core/api.js").Answered<Settings>} */
    const { data, revision } = await call("GET", bookPath(book, "/settings"));
    try {
      await call("PUT", bookPath(book, "/settings"), { body: { ...data, ...values(data) }, match: revision });
    } catch (error) {
      if (!(error instanceof Kept)) throw error;
      complain(error);
    }
    return data;
  } catch (error) {
    if (isStale(error)) toast("Someone changed these settings meanwhile. Look at them and try again.", { key: "stale" });
    else complain(error);
    return undefined;
  }
}
