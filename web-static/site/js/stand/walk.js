/**
 * Where the player is, and how one goes on: pure functions of the stops and a place in them.
 *
 * @typedef {import("./stops.js").Stop} Stop
 * @typedef {{stop: number, bar: number}} Place which stop; in a rest how many of its bars are over
 */

/** @type {Place} */
export const START = { stop: 0, bar: 0 };

/** @param {Stop|undefined} stop how many taps it takes: a rest one a bar, everything else one */
function taps(stop) {
  return stop?.kind === "rest" ? stop.bars.length : 1;
}

/**
 * @param {Stop[]} stops
 * @param {Place} place
 * @returns {Place} after a tap; the end stays the end
 */
export function on(stops, { stop, bar }) {
  if (bar + 1 < taps(stops[stop])) return { stop, bar: bar + 1 };
  return stop + 1 < stops.length ? { stop: stop + 1, bar: 0 } : { stop, bar };
}

/**
 * @param {Stop[]} stops
 * @param {Place} place
 * @returns {Place} before the last tap; the beginning stays the beginning
 */
export function back(stops, { stop, bar }) {
  if (bar > 0) return { stop, bar: bar - 1 };
  return stop > 0 ? { stop: stop - 1, bar: taps(stops[stop - 1]) - 1 } : { stop, bar };
}

/**
 * The numbers of the night, and the marks in each.
 *
 * @param {Stop[]} stops
 * @returns {{name: string, night: number, place: Place, marks: {mark: string, place: Place}[]}[]}
 */
export function places(stops) {
  /** @type {ReturnType<typeof places>} */
  const found = [];
  stops.forEach((stop, i) => {
    if (stop.kind === "end") return;
    const last = found[found.length - 1];
    if (last?.night !== stop.night) found.push({ name: stop.name, night: stop.night, place: { stop: i, bar: 0 }, marks: [] });
    const { marks } = found[found.length - 1];
    const add = (/** @type {string} */ mark, /** @type {number} */ bar) => {
      if (mark && !marks.some((m) => m.mark === mark)) marks.push({ mark, place: { stop: i, bar: stop.kind === "rest" ? bar : 0 } });
    };
    add(stop.mark, 0);
    for (const { after, what, named } of stop.marks) if (named) add(what, after);
  });
  return found;
}

/**
 * Where a bar is played: from a place on, else from the beginning of the number.
 *
 * @param {Stop[]} stops
 * @param {number} night which number
 * @param {string} bar as a player calls it
 * @param {Place} from
 * @returns {Place|undefined}
 */
export function barAt(stops, night, bar, from) {
  const wanted = bar.trim().toLowerCase();
  const fits = stops.flatMap((stop, i) => {
    const at = stop.night === night ? stop.bars.findIndex((b) => b.toLowerCase() === wanted) : -1;
    return at < 0 ? [] : [{ stop: i, bar: stop.kind === "rest" ? at : 0 }];
  });
  return fits.find((p) => p.stop > from.stop || (p.stop === from.stop && p.bar > from.bar)) ?? fits[0];
}

/**
 * The same place in another plan: the same bar in the same number and pass, else that number's beginning.
 *
 * @param {Stop[]} before
 * @param {Place} place
 * @param {Stop[]} now
 * @returns {Place}
 */
export function sameIn(before, place, now) {
  const was = before[place.stop];
  if (!was) return START;
  return keptIn(keep(before, place), now);
}

/** @typedef {{label: string, kind: string, bar: string, pass: number, again: number}} Kept a place as it is remembered; `again`: how many like it come before in its number */

/**
 * @param {Stop[]} stops
 * @param {Place} place
 * @returns {Kept}
 */
export function keep(stops, { stop, bar }) {
  const { label, kind, bars, pass } = stops[stop];
  const kept = { label, kind, bar: bars[bar] ?? "", pass, again: 0 };
  return { ...kept, again: like(kept, stops).filter((i) => i < stop).length };
}

/**
 * @param {Kept} kept
 * @param {Stop[]} stops
 * @returns {number[]}
 */
function like({ label, kind, bar, pass }, stops) {
  return stops.flatMap((s, i) => (s.label === label && s.kind === kind && s.pass === pass && (bar ? s.bars.includes(bar) : true) ? [i] : []));
}

/**
 * @param {Kept} kept
 * @param {Stop[]} stops
 * @returns {Place}
 */
export function keptIn(kept, stops) {
  const exact = like(kept, stops);
  const inNumber = stops.flatMap((s, i) => (s.label === kept.label ? [i] : []));
  const at = exact[kept.again] ?? exact[0] ?? inNumber.find((i) => kept.bar !== "" && stops[i].bars.includes(kept.bar)) ?? inNumber[0];
  if (at === undefined) return START;
  return { stop: at, bar: stops[at].kind === "rest" ? Math.max(0, stops[at].bars.indexOf(kept.bar)) : 0 };
}

/**
 * The next turn of a page and the next thing to take up, and how far they are.
 *
 * @param {Stop[]} stops
 * @param {Place} place
 * @returns {{turn?: import("./stops.js").Turn, turnIn: number, turnOpen: boolean, round: {turn: import("./stops.js").Turn, turnIn: number}[], change?: import("./stops.js").InstrumentChange, changeIn: number}} bars from the
 *     beginning of the stop, or from the bar counted; `turnOpen`: a vamp lies between, so nobody knows; `round`: the other turns of the
 *     vamp the turn lies in, made each time round with it
 */
export function ahead(stops, place) {
  /** @type {ReturnType<typeof ahead>} */
  const found = { turnIn: 0, turnOpen: false, round: [], changeIn: 0 };
  let bars = -place.bar;
  let open = false;
  for (let i = place.stop; i < stops.length && !(found.turn && found.change); i++) {
    const stop = stops[i];
    const taken = found.change ? undefined : stop.changes.find((c) => bars + c.after > 0);
    if (taken) Object.assign(found, { change: taken.change, changeIn: bars + taken.after });
    const next = found.turn ? undefined : stop.turns.find((t) => bars + t.after > 0);
    if (next) {
      const from = bars;
      const inside = stop.open && next.turn.again;
      const round = inside ? stop.turns.filter((t) => t !== next && t.turn.again).map(({ turn, after }) => ({ turn, turnIn: from + after })) : [];
      Object.assign(found, { turn: next.turn, turnIn: bars + next.after, turnOpen: open || (stop.open && !inside), round });
    }
    if (stop.open) open = true;
    bars += stop.bars.length;
  }
  return found;
}
