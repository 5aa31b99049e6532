import { bookPath, call, isStale, Kept } from "../core/api.js";
import { ask, field } from "../core/dialog.js";
import { el } from "../core/dom.js";
import { complain, toast } from "../core/toast.js";
import { lying, lyingFields } from "./lying.js";

/**
 * How the pages lie, how long this player takes to turn, and how much they trust to memory.
 *
 * @param {string} book
 * @param {{id: string, index: number}[]} pages
 * @param {string} at the name of the field that is asked for; empty for none
 * @returns {Promise<boolean>} whether something changed
 */
export async function changeSettings(book, pages, at = "") {
  /** @type {import("../core/api.js").Answered<import("../core/types.js").Settings>} */
  const { data: now, revision } = await call("GET", bookPath(book, "/settings"));
  const number = (/** @type {"turnSeconds"|"quickSeconds"|"memoryBars"|"changeSeconds"} */ name, /** @type {number} */ step, /** @type {number} */ min, /** @type {number} */ max) =>
    el("input", { name, type: "number", step, min, max, required: true, value: String(now[name]) });
  const repeats = el("input", { name: "repeatsAfterJump", type: "checkbox", checked: now.repeatsAfterJump });
  const chair = now.chair ?? {};
  const seconds = (/** @type {"bowSeconds"|"muteSeconds"|"reedSeconds"|"retuneSeconds"|"putDownSeconds"} */ name, /** @type {string} */ usual) =>
    el("input", { name, type: "number", step: 0.1, min: 0.1, max: 120, value: String(chair[name] ?? ""), placeholder: usual });
  const version = el("input", { name: "version", maxlength: 40, autocomplete: "off", placeholder: "matinee", value: now.version ?? "" });
  const answer = await ask(
    "You and your turns",
    [
      ...lyingFields(now, pages).filter((node) => node !== null),
      field("A calm turn takes (seconds)", number("turnSeconds", 0.1, 0.5, 20)),
      field("A quick turn takes (seconds)", number("quickSeconds", 0.1, 0.2, 10)),
      field("Bars you trust to memory", number("memoryBars", 1, 0, 32)),
      field("A change of instrument takes (seconds)", number("changeSeconds", 0.5, 0.5, 120)),
      field("In hand before the first number", el("input", { name: "inHand", maxlength: 60, value: chair.inHand ?? "", autocomplete: "off" }), "Only where the book doesn't say."),
      field("Instruments of your chair", el("input", { name: "doublings", maxlength: 400, value: (chair.doublings ?? []).join(", "), autocomplete: "off" }), "With commas between them."),
      el("div", { class: "pair" }, field("Bow to fingers (seconds)", seconds("bowSeconds", "2")), field("Mute (seconds)", seconds("muteSeconds", "1"))),
      el("div", { class: "pair" }, field("Instrument with a reed (seconds)", seconds("reedSeconds", "as any")), field("Retuning (seconds)", seconds("retuneSeconds", "as any"))),
      field("Putting the other instrument down (seconds)", seconds("putDownSeconds", "0"), "On top of taking one up."),
      el("label", { class: "tick-line" }, repeats, el("span", { text: "Repeats are played again after a D.C. or D.S." })),
      field("Version of the show", version, "Changes for another version are left out. May be left empty."),
    ],
    { yes: "Keep", at },
  );
  if (!answer) return false;
  const body = {
    ...now,
    ...lying(answer, pages),
    ...Object.fromEntries(["turnSeconds", "quickSeconds", "memoryBars", "changeSeconds"].map((k) => [k, Number(answer.get(k))])),
    chair: chairOf(answer),
    repeatsAfterJump: answer.get("repeatsAfterJump") !== null,
    version: String(answer.get("version") ?? "").trim().toLowerCase() || null,
  };
  try {
    await call("PUT", bookPath(book, "/settings"), { body, match: revision });
    return true;
  } catch (error) {
    if (error instanceof Kept) {
      complain(error);
      return true;
    }
    if (isStale(error)) toast("Someone changed these settings meanwhile. Look at them and try again.", { key: "stale" });
    else complain(error);
    return false;
  }
}

/**
 * What is left empty is as usual.
 *
 * @param {FormData} answer
 * @returns {import("../core/types.js").Chair}
 */
function chairOf(answer) {
  const said = (/** @type {string} */ key) => String(answer.get(key) ?? "").trim();
  const doublings = said("doublings").split(",").map((name) => name.trim()).filter(Boolean);
  return {
    ...(said("inHand") ? { inHand: said("inHand") } : {}),
    ...(doublings.length ? { doublings } : {}),
    ...Object.fromEntries(["bowSeconds", "muteSeconds", "reedSeconds", "retuneSeconds", "putDownSeconds"].filter((key) => said(key)).map((key) => [key, Number(said(key))])),
  };
}
