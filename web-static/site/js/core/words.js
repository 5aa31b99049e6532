/** The words shown for what the formats name. */

/** @type {Record<string, string>} */
export const CONTENT = { music: "Music", rest: "Rest", "multi-rest": "Long rest", "bar-repeat": "Same again" };

/** @type {Record<string, string>} */
export const BARLINE = {
  none: "None",
  single: "Single",
  double: "Double",
  final: "Final",
  "repeat-start": "Repeat begins",
  "repeat-end": "Repeat ends",
  "repeat-both": "Repeat ends and begins",
  dashed: "Dashed",
};

/** @type {Record<string, string>} */
export const SIGN = {
  segno: "Segno",
  coda: "Coda",
  "to-coda": "To Coda",
  fine: "Fine",
  "da-capo": "D.C.",
  "dal-segno": "D.S.",
  fermata: "Fermata",
  caesura: "Caesura //",
};

/** @type {Record<string, string>} */
export const ENCLOSURE = { box: "Box", circle: "Circle", none: "Bare" };

/** @type {Record<string, string>} */
export const ORIGIN = {
  read: "as read from the page",
  inferred: "worked out from the bars around it",
  corrected: "corrected by a player",
  verified: "checked by a player",
};

/**
 * @param {number} n
 * @param {string} one
 * @param {string} [many]
 */
export function count(n, one, many = `${one}s`) {
  return `${n} ${n === 1 ? one : many}`;
}

/**
 * How much of a page is likely wrong, where the page stands out by it. Below one there is nothing to
 * say: of the pages read for measuring, one in four had something wrong, whether 0.2 or 0.9 was
 * expected.
 *
 * @param {number|undefined} wrong expected number of wrong entries
 */
export function toCheck(wrong) {
  return wrong === undefined || wrong < 1 ? "" : `about ${Math.round(wrong)} to check`;
}

/** @param {string} word a word of a format, "turn-early" */
export function plain(word) {
  const text = word.replace(/-/g, " ");
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/**
 * The name players give a bar entry: "34", "24A", "34–41".
 *
 * @param {{number: number, label?: string, count: number}} bar
 */
export function barName(bar) {
  if (bar.label) return bar.label;
  if (bar.count > 1) return `${bar.number}–${bar.number + bar.count - 1}`;
  return String(bar.number);
}

/**
 * What a screen reader says of a bar on the page.
 *
 * @param {import("./types.js").Bar} bar
 */
export function spoken(bar) {
  const what = bar.count > 1 ? `rest of ${bar.count} bars` : CONTENT[bar.content];
  return `Bar ${barName(bar)}, line ${bar.system}, ${what}`;
}

/**
 * How a number is spoken of by its label: "No. 7"; music that stands in no number is "before No. 2".
 *
 * @param {string} label
 */
export function numberNo(label) {
  const beside = /^(before|after) (.+)$/.exec(label);
  return beside ? `${beside[1]} No. ${beside[2]}` : `No. ${label}`;
}

/** @param {{label: string, title?: string}} number */
export function numberName(number) {
  if (!number.label) return number.title || "The whole book";
  const no = numberNo(number.label);
  return number.title ? `${no} ${number.title}` : no.charAt(0).toUpperCase() + no.slice(1);
}

/** @param {string} word what is held, as a plan has it */
export function inHand(word) {
  return word === "pizz" ? "pizz." : word;
}

/** @param {import("./types.js").RehearsalMark|undefined} mark */
export function markText(mark) {
  return mark?.text ?? "";
}

/** @param {import("./types.js").Meter|undefined} meter */
export function meterText(meter) {
  return meter ? `${meter.beats}/${meter.unit}` : "";
}

/** Time signatures that are offered; any other can be typed. */
export const METERS = ["2/4", "3/4", "4/4", "6/8", "9/8", "12/8", "2/2", "3/2", "3/8", "5/4", "6/4", "7/8"];

export const METER_HINT = "Write it as it is drawn: 4/4, 6/8, C or C|.";

const COMMON = ["c", "\u{1D134}", "common", "commontime"];
const CUT = ["c|", "c/", "\u00A2", "\u{1D135}", "cut", "cuttime", "allabreve"];

/**
 * A time signature as it is typed: figures, or the signs and words for common and cut time.
 *
 * @param {string} text
 * @returns {{beats: number, unit: number}|undefined}
 */
export function meterSaid(text) {
  const said = text.replace(/\s/g, "").toLowerCase();
  if (COMMON.includes(said)) return { beats: 4, unit: 4 };
  if (CUT.includes(said)) return { beats: 2, unit: 2 };
  const found = /^(\d{1,2})\/(1|2|4|8|16|32)$/.exec(said);
  return found && Number(found[1]) > 0 ? { beats: Number(found[1]), unit: Number(found[2]) } : undefined;
}

/** The most sharps or flats a key has. */
export const MOST_FIFTHS = 7;

/**
 * A key as a player says it.
 *
 * @param {number} fifths sharps counted up, flats counted down
 */
export function keyText(fifths) {
  if (fifths === 0) return "no sharps or flats";
  return count(Math.abs(fifths), fifths > 0 ? "sharp" : "flat");
}

/** @param {number} fifths a key as a sign: 3♭, 2♯, ♮ */
export function keySign(fifths) {
  return fifths === 0 ? "♮" : `${Math.abs(fifths)}${fifths > 0 ? "♯" : "♭"}`;
}

/** @param {string} iso */
export function when(iso) {
  const date = new Date(iso);
  if (Number.isNaN(date.getTime())) return "";
  const today = new Date().toDateString() === date.toDateString();
  return today
    ? date.toLocaleTimeString([], { hour: "2-digit", minute: "2-digit" })
    : date.toLocaleString([], { weekday: "short", day: "numeric", month: "short", hour: "2-digit", minute: "2-digit" });
}

/** @param {string} day as ISO 8601 has it */
export function dayText(day) {
  const date = new Date(`${day}T12:00:00`);
  return Number.isNaN(date.getTime()) ? day : date.toLocaleDateString([], { day: "numeric", month: "short", year: "numeric" });
}

/**
 * What of a number's time is known, where not all of it is.
 *
 * @param {{seconds: number, barsWithout: number}|undefined} known
 */
export function knownText(known) {
  return known ? `${duration(known.seconds)} and ${count(known.barsWithout, "bar")} without a tempo` : "";
}

/** @param {number|undefined} seconds */
export function duration(seconds) {
  if (seconds === undefined) return "";
  if (seconds < 60) return `${seconds.toFixed(1)} s`;
  const whole = Math.round(seconds);
  return `${Math.floor(whole / 60)} min ${whole % 60} s`;
}
