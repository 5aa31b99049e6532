/**
 * Ties moments of a recording to bars, and reckons tempi from them.
 *
 * @typedef {{time: number, step: number}} Tap time in seconds; index into the steps of a number
 * @typedef {import("../shared/steps.js").BarStep} BarStep
 */

/**
 * Quarters between two places in the order of play.
 *
 * @param {BarStep[]} steps
 * @param {number} from
 * @param {number} to
 */
export function quartersBetween(steps, from, to) {
  let sum = 0;
  for (let i = from; i < to; i++) sum += steps[i].beats * steps[i].share;
  return sum;
}

/**
 * The tempo of each stretch between two places, in clicks a minute.
 *
 * @param {BarStep[]} steps
 * @param {Tap[]} taps in order
 * @returns {{tap: Tap, perMinute: number|undefined}[]}
 */
export function tempi(steps, taps) {
  return taps.map((tap, i) => {
    const next = taps[i + 1];
    if (!next || next.time <= tap.time || next.step <= tap.step) return { tap, perMinute: undefined };
    const quarters = quartersBetween(steps, tap.step, next.step);
    return { tap, perMinute: quarters / steps[tap.step].share / ((next.time - tap.time) / 60) };
  });
}

/**
 * Which bar sounds at a moment, between the taps; nothing before the first or after the last.
 *
 * @param {BarStep[]} steps
 * @param {Tap[]} taps
 * @param {number} time
 * @returns {BarStep|undefined}
 */
export function stepAt(steps, taps, time) {
  const i = taps.findIndex((tap, k) => tap.time <= time && taps[k + 1] && time < taps[k + 1].time);
  if (i < 0) return undefined;
  const [a, b] = [taps[i], taps[i + 1]];
  let quarters = (quartersBetween(steps, a.step, b.step) * (time - a.time)) / (b.time - a.time);
  for (let k = a.step; k < b.step; k++) {
    quarters -= steps[k].beats * steps[k].share;
    if (quarters < 0) return steps[k];
  }
  return steps[b.step];
}
