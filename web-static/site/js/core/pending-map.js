/** What corrections that wait to be sent make of bars, doubts and pages, as far as they say it themselves. */

/** @typedef {import("./outbox.js").Waiting} Waiting */
/** @typedef {import("./types.js").Bar} Bar */
/** @typedef {import("./types.js").Correction} Correction */
/** @typedef {import("./types.js").Finding} Finding */

/** @param {Waiting[]} edits @returns {Correction[]} */
function corrections(edits) {
  return edits.map((e) => /** @type {Correction} */ (e.body)).filter((c) => typeof c?.kind === "string");
}

/**
 * @param {Bar} bar
 * @param {Correction} said about this bar
 * @returns {Bar} as far as it is known without the service
 */
function corrected(bar, said) {
  switch (said.kind) {
    case "set-count": return { ...bar, count: said.count };
    case "set-content": return { ...bar, content: /** @type {Bar["content"]} */ (said.content), count: said.count };
    case "set-rehearsal": return { ...bar, rehearsal: { text: said.text, enclosure: said.enclosure } };
    case "remove-rehearsal": return { ...bar, rehearsal: undefined };
    case "set-meter": return { ...bar, meter: { beats: said.beats, unit: said.unit, printed: true } };
    case "remove-meter": return { ...bar, meter: bar.meter && { ...bar.meter, printed: false } };
    case "set-key": return { ...bar, key: { fifths: said.fifths, printed: true } };
    case "remove-key": return { ...bar, key: bar.key && { ...bar.key, printed: false } };
    case "set-number": return { ...bar, number: said.number };
    case "set-label": return { ...bar, label: said.label || undefined };
    case "set-ending": return { ...bar, ending: said.ending };
    case "set-sign": return { ...bar, signs: [...(bar.signs ?? []).filter((s) => s !== said.sign), ...(said.present ? [said.sign] : [])] };
    case "set-times": return { ...bar, times: said.times };
    case "set-words": return { ...bar, words: said.words };
    case "set-silence": return { ...bar, [said.side === "start" ? "silentStart" : "silentEnd"]: said.beats };
    case "set-barline": return { ...bar, [said.side === "start" ? "startBarline" : "endBarline"]: said.type };
    default: return bar;
  }
}

/**
 * @param {Bar} bar
 * @param {{page: number, system: number, x?: number}} place a line of a page, or a place in it
 */
function isAt(bar, { page, system, x }) {
  const [left, right] = bar.outline;
  return bar.page === page && bar.system === system && (x === undefined || (left[0] <= x && x < right[0]));
}

/**
 * @param {Bar[]} bars
 * @param {Correction} said
 * @returns {Bar[]}
 */
function oneCorrected(bars, said) {
  if (said.kind === "add-tacet-number") return bars.map((b) => (b.id === said.before ? { ...b, waits: true } : b));
  if (said.kind === "add-barline" || said.kind === "remove-system") return bars.map((b) => (isAt(b, said) ? { ...b, waits: true } : b));
  if (!("bar" in said) || said.bar === undefined || said.kind === "dismiss-doubt") return bars;
  if (said.kind === "move-barline") return barlineMoved(bars, said.bar, said.side, said.x);
  const mark = said.kind === "move-rehearsal" ? bars.find((b) => b.id === said.bar)?.rehearsal : undefined;
  return bars.map((bar) => {
    if (bar.id === said.bar) return { ...corrected(bar, said), ...(mark ? { rehearsal: undefined } : {}), waits: true };
    return mark && said.kind === "move-rehearsal" && bar.id === said.to ? { ...bar, rehearsal: mark, waits: true } : bar;
  });
}

/**
 * A barline moves, and with it the edge of the bar beside it.
 *
 * @param {Bar[]} bars
 * @param {string} id
 * @param {import("./types.js").Side} side
 * @param {number} x page pixels
 */
function barlineMoved(bars, id, side, x) {
  const at = bars.findIndex((b) => b.id === id);
  const beside = bars[at + (side === "end" ? 1 : -1)];
  const bar = bars[at];
  if (!bar) return bars;
  const other = beside?.page === bar.page && beside.system === bar.system ? beside.id : "";
  return bars.map((b) => (b.id === id ? edge(b, side, x) : b.id === other ? edge(b, side === "end" ? "start" : "end", x) : b));
}

/**
 * @param {Bar} bar
 * @param {import("./types.js").Side} side
 * @param {number} x
 * @returns {Bar}
 */
function edge(bar, side, x) {
  const moved = side === "start" ? [0, 3] : [1, 2];
  return { ...bar, waits: true, outline: /** @type {import("./types.js").Outline} */ (bar.outline.map(([px, py], i) => [moved.includes(i) ? x : px, py])) };
}

/**
 * Bars as the corrections that wait say they are; the rest of what follows, numbers above all, is the service's to work out.
 *
 * @param {Bar[]} bars
 * @param {Waiting[]} edits
 * @returns {Bar[]}
 */
export function barsCorrected(bars, edits) {
  return corrections(edits).reduce(oneCorrected, bars);
}

/**
 * @param {Waiting[]} edits
 * @param {number} page
 * @returns {import("./types.js").Outline[]} the lines that were drawn on it and aren't read yet
 */
export function framesOn(edits, page) {
  return corrections(edits).flatMap((c) => (c.kind === "add-system" && c.page === page ? [c.outline] : []));
}

/** What stands in an answer or a correction besides who says it. @param {object} said */
function meant(said) {
  return Object.entries(said).filter(([key]) => key !== "who").map(([key, value]) => `${key}=${String(value)}`).sort().join("&");
}

/**
 * The doubts that nobody has answered yet.
 *
 * @param {Finding[]} doubts
 * @param {Waiting[]} edits
 */
export function doubtsLeft(doubts, edits) {
  const said = corrections(edits);
  const answered = new Set(said.map(meant));
  return doubts.filter((d) => {
    const dismissed = said.some((c) => c.kind === "dismiss-doubt" && c.code === d.code && c.bar === d.bar && (c.page ?? d.page) === d.page);
    return !dismissed && !(d.answers ?? []).some((a) => a.correction && Object.keys(a.correction).length > 0 && answered.has(meant(a.correction)));
  });
}

/**
 * @param {Waiting[]} edits
 * @returns {Map<number, "read"|"verified">} the pages that were checked, or are not any more, by their index
 */
export function pageStates(edits) {
  return new Map(corrections(edits).flatMap((c) => (c.kind === "verify-page" ? [[c.page, c.verified ? "verified" : "read"]] : [])));
}
