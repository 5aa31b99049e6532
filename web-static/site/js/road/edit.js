import { ask, field } from "../core/dialog.js";
import { el } from "../core/dom.js";
import { numberName } from "../core/words.js";
import { editFields, edited } from "./holding.js";
import { BEAT_OF_BAR, formOf, typed } from "./change-of.js";
import { bar, select } from "./kind-fields.js";
import { KINDS, OF_NUMBER, sentence } from "./kinds.js";

/** @typedef {import("./kinds.js").Change} Change */
/** @typedef {import("../core/types.js").KeptChange} KeptChange */
/** @typedef {import("../core/types.js").RoadNumber} RoadNumber */
/** @typedef {Record<string, unknown>} Values */

/** What a list keeps of a change besides what it says. */
const KEPT = ["id", "on", "when", "who"];

/** @param {string} name @param {string} text @param {unknown} value @param {boolean} needed */
function barField(name, text, value, needed) {
  const input = bar(name, String(value ?? ""));
  input.required = needed;
  return field(text, input, needed ? "" : "May be left empty.");
}

/**
 * The fields for the bars it is about.
 *
 * @param {import("./kinds.js").Offer|undefined} offer nothing for a whole number, or the show
 * @param {(name: string) => boolean} asks whether a field of its kind has that name
 * @param {Values} now
 */
function barFields(offer, asks, now) {
  const at = (/** @type {string} */ name, /** @type {string} */ text, needed = true) => barField(name, text, now[name], needed);
  if (!offer || asks("first")) return [];
  if (asks("side")) return [at("at", "At bar")];
  if (now.from !== undefined) return [at("from", "From the end of bar"), offer.back ? at("to", "Back to bar") : null];
  if (now.after !== undefined) return [at("after", "After bar")];
  const needed = !offer.anywhere;
  const last = asks("toPerMinute") ? at("last", "To bar, for a rit. or an accel.", false) : offer.noLast ? null : at("last", "To bar, this one too", needed);
  return [last ? el("div", { class: "pair even" }, at("first", "From bar", needed), last) : at("first", "At bar, or from it on", needed)];
}

/**
 * Every field shows what is said now.
 *
 * @param {HTMLElement} form
 * @param {Values} now
 */
function fillIn(form, now) {
  const controls = /** @type {NodeListOf<HTMLInputElement|HTMLSelectElement>} */ (form.querySelectorAll("input[name], select[name]"));
  for (const control of controls) {
    const value = now[control.name] === undefined ? "" : String(now[control.name]);
    if (control instanceof HTMLSelectElement && ![...control.options].some((o) => o.value === value)) control.append(el("option", { value, text: value }));
    control.value = value;
  }
}

/**
 * @param {KeptChange} change
 * @param {(name: string) => boolean} asks
 * @returns {Values} what its fields hold
 */
function valuesOf(change, asks) {
  const now = /** @type {Values} */ ({ ...change });
  if (Array.isArray(now.numbers)) now.numbers = now.numbers.join(", ");
  if (asks("side")) Object.assign(now, { side: now.before === undefined ? "after" : "before", at: now.before ?? now.after });
  for (const [bars, beat] of [["first", "fromBeat"], ["last", "toBeat"]]) {
    const [, name, on] = (asks(beat) && BEAT_OF_BAR.exec(String(now[bars]))) || [];
    if (name) Object.assign(now, { [bars]: name, [beat]: on });
  }
  return now;
}

/**
 * Asks for everything a change says, in the form it was made with; it can be said in words instead.
 *
 * @param {KeptChange} change
 * @param {string[]} versions
 * @param {RoadNumber[]} numbers in the order of the night
 * @param {string} said the same in words, as the director says it
 * @returns {Promise<{next: Change, words: string}|undefined>} what it says now, or the words that say it otherwise; nothing where it was left
 */
export async function askEdit(change, versions, numbers, said) {
  const form = formOf(change);
  const plain = /** @type {Values} */ ({ ...change });
  const named = (/** @type {RoadNumber[]} */ some) => some.filter((n) => n.label).map((n) => /** @type {[string, string]} */ ([n.label, numberName(n)]));
  const later = numbers.slice(numbers.findIndex((n) => n.label === change.number) + 1);
  const own = KINDS[form]?.fields(String(plain.first ?? ""), String(plain.last ?? plain.first ?? ""), named(later)) ?? OF_NUMBER[/** @type {keyof typeof OF_NUMBER} */ (form)]?.fields?.() ?? [];
  const asks = (/** @type {string} */ name) => own.some((f) => f.querySelector(`[name=${name}]`));
  const now = valuesOf(change, asks);
  const which = change.number !== undefined && numbers.length > 1 ? [field("In", select("number", named(numbers)))] : [];
  const order = now.numbers === undefined ? [] : [field("Numbers, in the order they are played", el("input", { name: "numbers", maxlength: 2000, required: true, autocomplete: "off" }), "With commas between them.")];
  const always = editFields(versions, change).filter((f) => !(asks("note") && f.querySelector("[name=note]")));
  const body = el("div", {}, which, barFields(KINDS[form], asks, now), own, order, always);
  fillIn(body, now);
  if (said) body.prepend(el("details", { class: "fold" }, el("summary", { text: "Say it in words" }), field("In words", el("input", { name: "words", maxlength: 300, autocomplete: "off", value: said }), "Where these are others, they count.")));
  const begin = body.querySelector("[name]:not([name=number])")?.getAttribute("name") ?? "";
  const answer = await ask(`Edit: ${sentence(change)}`, [body], { yes: "Keep it so", at: begin });
  if (!answer) return undefined;
  const words = String(answer.get("words") ?? "").trim();
  answer.delete("words");
  return { next: read(change, KINDS[form], answer), words: words === said ? "" : words };
}

/**
 * @param {KeptChange} change
 * @param {import("./kinds.js").Offer|undefined} offer
 * @param {FormData} answer
 * @returns {Change}
 */
function read(change, offer, answer) {
  const said = /** @type {Record<string, string>} */ (Object.fromEntries([...answer].map(([key, value]) => [key, String(value).trim()])));
  const { side, at, fromBeat, toBeat, numbers, ...plain } = said;
  if (side) Object.assign(plain, { after: side === "after" ? at : "", before: side === "before" ? at : "" });
  if (fromBeat) plain.first += ` beat ${fromBeat}`;
  if (toBeat) plain.last += ` beat ${toBeat}`;
  if (plain.exitBeat && !plain.exitBar) plain.exitBar = plain.last;
  if (offer?.anywhere && plain.last !== undefined) plain.last = plain.first && (plain.last || plain.first);
  const { version, since, until } = edited(answer);
  /** @type {Values} */
  const next = { ...change, ...(numbers === undefined ? {} : { numbers: numbers.split(",").map((n) => n.trim()).filter(Boolean) }) };
  for (const [key, value] of Object.entries({ ...plain, version: version ?? "", since: since ?? "", until: until ?? "" })) {
    if (value === "") delete next[key];
    else next[key] = typed(key, value);
  }
  for (const key of KEPT) delete next[key];
  return /** @type {Change} */ (/** @type {unknown} */ (next));
}

/**
 * What has to be written so that a change says something else; null takes a key out.
 *
 * @param {KeptChange} change
 * @param {Change} next
 * @returns {Values|undefined} nothing where nothing is different
 */
export function patchOf(change, next) {
  const [was, now] = /** @type {Values[]} */ ([{ ...change }, { ...next }]);
  const keys = [...new Set([...Object.keys(was), ...Object.keys(now)])].filter((k) => !KEPT.includes(k) && JSON.stringify(was[k]) !== JSON.stringify(now[k]));
  return keys.length ? Object.fromEntries(keys.map((k) => [k, now[k] ?? null])) : undefined;
}
