import { markText } from "../core/words.js";

/**
 * The order of play as single bars with beats, for a click to follow.
 *
 * @typedef {object} BarStep
 * @property {string} bar id of the entry
 * @property {string} name "34"
 * @property {number} beats clicks in the bar
 * @property {number} share of a quarter each click lasts
 * @property {string} mark rehearsal mark at it
 * @property {number} page
 * @property {boolean} rest
 * @property {number} left bars of this rest still to come, this one counted; 0 for music
 * @property {number} pass which time its bar is played
 * @property {number} entry its place in the order of play, 0 for the first
 * @property {string} vamp key of the vamp it belongs to, or nothing
 * @property {boolean} anyTime whether that vamp may be left at any time, not only at the end of a pass
 * @property {number} [perMinute] quarters a minute at its start, where a tempo is known
 * @property {number} [toPerMinute] quarters a minute at its end
 */

/** @typedef {import("../core/types.js").Bar} Bar */
/** @typedef {import("../core/types.js").Pace} Pace */

/**
 * How a bar is clicked: as the director beats it where a change says so, else 6/8, 9/8 and 12/8 in
 * dotted beats as is common practice, else in the meter's own unit.
 *
 * @param {{beats: number, unit: number}|undefined} meter
 * @param {number|undefined} shown beats the director shows
 */
export function beatsOf(meter, shown) {
  const { beats, unit } = meter ?? { beats: 4, unit: 4 };
  const quarters = (beats * 4) / unit;
  if (shown) return { beats: shown, share: quarters / shown };
  if (unit >= 8 && beats > 3 && beats % 3 === 0) return { beats: beats / 3, share: (3 * 4) / unit };
  return { beats, share: 4 / unit };
}

/** @param {string|undefined} said "3/4" */
function meterOf(said) {
  const [beats, unit] = (said ?? "").split("/").map(Number);
  return beats > 0 && unit > 0 ? { beats, unit } : undefined;
}

/**
 * @param {import("../core/types.js").PlannedNumber|undefined} planned one number of the plan
 * @param {Map<string, Bar>} bars
 * @returns {BarStep[]}
 */
export function barSteps(planned, bars) {
  const order = planned?.order ?? [];
  const vamps = vampBars(planned?.open ?? []);
  const pace = new Map((planned?.pace ?? []).map((p) => [p.from, p]));
  /** @type {Pace|undefined} */
  let now;
  /** @type {BarStep[]} */
  const steps = [];
  for (const [place, entry] of order.entries()) {
    const bar = bars.get(entry.bar);
    if (!bar) continue;
    const from = (entry.from ?? 1) - 1;
    const many = entry.bars ?? (entry.inserted ? 1 : bar.count);
    const content = entry.inserted ? entry.added?.content : bar.content;
    const rest = entry.silent === true || content === "rest" || content === "multi-rest";
    const meter = meterOf(entry.added?.meter) ?? bar.meter;
    for (let i = 0; i < many; i++) {
      now = pace.get(steps.length) ?? now;
      const beat = beatsOf(meter, now?.beats || undefined);
      const cut = i === 0 && entry.beatsCut ? Math.round((entry.beatsCut * 4) / (meter?.unit ?? 4) / beat.share) : 0;
      steps.push({
        bar: bar.id,
        name: entry.added?.names[i] ?? entry.inserted ?? bar.label ?? String(bar.number + from + i),
        beats: Math.max(1, beat.beats - cut),
        share: beat.share,
        mark: i === 0 && from === 0 && !entry.inserted ? markText(bar.rehearsal) : "",
        page: bar.page,
        rest,
        left: rest ? many - i : 0,
        pass: entry.pass,
        entry: place,
        vamp: vamps.get(steps.length)?.key ?? "",
        anyTime: vamps.get(steps.length)?.anyTime ?? false,
        perMinute: now?.perMinute,
        toPerMinute: now?.toPerMinute ?? now?.perMinute,
      });
    }
  }
  return restsTogether(ramps(steps, pace));
}

/**
 * A tempo that changes by and by over several bars is a straight line over their quarters.
 *
 * @param {BarStep[]} steps
 * @param {Map<number, Pace>} pace
 */
function ramps(steps, pace) {
  for (const [from, { perMinute, toPerMinute }] of pace) {
    if (!perMinute || !toPerMinute) continue;
    let to = from + 1;
    while (to < steps.length && !pace.has(to)) to++;
    const whole = steps.slice(from, to).reduce((sum, s) => sum + s.beats * s.share, 0);
    let passed = 0;
    for (const step of steps.slice(from, to)) {
      const at = (/** @type {number} */ quarters) => perMinute + ((toPerMinute - perMinute) * quarters) / whole;
      step.perMinute = at(passed);
      passed += step.beats * step.share;
      step.toPerMinute = at(passed);
    }
  }
  return steps;
}

/**
 * How long one click lasts, in seconds: the time of a straight line between two tempi is the
 * integral of its inverse.
 *
 * @param {BarStep} step
 * @param {number} beat 0 for the first
 * @param {number} otherwise quarters a minute where no tempo is known
 * @param {number} speed 1 as marked, 0.5 half as fast
 */
export function clickSeconds(step, beat, otherwise, speed) {
  const from = step.perMinute ?? otherwise;
  const to = step.toPerMinute ?? from;
  const at = (/** @type {number} */ share) => from + (to - from) * share;
  const [a, b] = [at(beat / step.beats), at((beat + 1) / step.beats)];
  const quarters = Math.abs(b - a) < 1e-9 ? step.share / a : (step.share * Math.log(b / a)) / (b - a);
  return (60 * quarters) / speed;
}

/**
 * A vamp is bars of the order of play: inside a multi-bar rest it is some of its bars.
 *
 * @param {import("../core/types.js").OpenStretch[]} open
 * @returns {Map<number, {key: string, anyTime: boolean}>} by how many bars come before
 */
function vampBars(open) {
  /** @type {Map<number, {key: string, anyTime: boolean}>} */
  const found = new Map();
  for (const vamp of open.filter((o) => o.kind === "vamp")) {
    for (const { from, bars } of vamp.places ?? []) {
      const held = { key: `${vamp.first}-${vamp.last}/${from}`, anyTime: vamp.leave === "any-time" };
      for (let i = from; i < from + bars; i++) found.set(i, held);
    }
  }
  return found;
}

/**
 * Rests next to each other are counted on as one, up to a vamp, round the vamp, and on behind it.
 *
 * @param {BarStep[]} steps
 */
function restsTogether(steps) {
  for (let i = steps.length - 1; i >= 0; i--) {
    const next = steps[i + 1];
    if (steps[i].rest) steps[i].left = next?.rest && next.vamp === steps[i].vamp ? next.left + 1 : 1;
  }
  return steps;
}
