/** The words of a bar as they are sent, and the metronome mark among them. */

/** @typedef {import("../core/types.js").Bar} Bar */
/** @typedef {import("../core/types.js").Word} Word */

/**
 * Note values a tempo is given in, as they are written in words: the signs of longer notes are in few fonts.
 *
 * @type {[string, string][]} what is written, what it is called
 */
export const BEATS = [
  ["♩", "quarter note"],
  ["♩.", "dotted quarter"],
  ["half", "half note"],
  ["dotted half", "dotted half"],
  ["♪", "eighth note"],
  ["♪.", "dotted eighth"],
];

/** A note, "=" and a figure or a range of figures. */
const MARK = /(?:dotted[ -])?[^\s(]+(?:[ -]note)?\s?=\s*(?:c(?:a|irca)?\.?\s*)?(\d{2,3}(?:\.\d+)?)(?:\s*[-–]\s*\d{2,3})?/i;

/**
 * Lines as words: a line that was there keeps its place on the page, a new one stands above.
 *
 * @param {Bar} bar
 * @param {string[]} lines
 * @returns {Word[]}
 */
export function wordsOf(bar, lines) {
  const left = [...(bar.words ?? [])];
  return lines.map((line) => {
    const text = line.trim();
    const at = left.findIndex((word) => word.text.trim() === text);
    return at < 0 ? { text, where: "above" } : left.splice(at, 1)[0];
  }).filter((word) => word.text);
}

/**
 * The metronome mark at a bar.
 *
 * @param {Bar} bar
 * @returns {{beat: string, figure: number}|undefined}
 */
export function tempoAt(bar) {
  for (const word of bar.words ?? []) {
    const found = MARK.exec(word.text);
    if (!found) continue;
    const written = found[0].split("=")[0].trim().replace(/\s+\./, ".").replace(/[ -]note$/i, "").toLowerCase();
    const name = { quarter: "♩", crotchet: "♩", minim: "half", eighth: "♪", quaver: "♪", "dotted quarter": "♩.", "dotted eighth": "♪." }[written] ?? written;
    return { beat: BEATS.some(([beat]) => beat === name) ? name : "♩", figure: Number(found[1]) };
  }
  return undefined;
}

/**
 * The words of a bar with another metronome mark, or none; what else is said with it stays.
 *
 * @param {Bar} bar
 * @param {string} beat as in BEATS
 * @param {number|undefined} figure
 * @returns {Word[]}
 */
export function withTempo(bar, beat, figure) {
  const words = bar.words ?? [];
  const mark = figure === undefined ? "" : `${beat} = ${figure}`;
  const at = words.findIndex((word) => MARK.test(word.text));
  if (at < 0) return mark ? [...words, { text: mark, where: "above" }] : words;
  const text = words[at].text.replace(MARK, mark).replace(/\(\s*\)/, "").trim();
  return words.map((word, i) => (i === at ? { ...word, text } : word)).filter((word) => word.text);
}
