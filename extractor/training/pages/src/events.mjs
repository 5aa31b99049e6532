// The notes of one bar: rhythm by beat groups, pitches by a bounded walk. Durations are in 16ths.
const BASE = { 16: [1, 0], 24: [1, 1], 8: [2, 0], 12: [2, 1], 4: [4, 0], 6: [4, 1], 2: [8, 0], 3: [8, 1], 1: [16, 0], 0.5: [32, 0] };
export const written = d => BASE[d];
const FOUR = { plain: [[4], [4], [2, 2], [2, 2], [-4], [3, 1]], busy: [[2, 2], [1, 1, 1, 1], [2, 1, 1], [1, 1, 2], [3, 1], [1, 2, 1], [4], ['t2', 't2', 't2'], [-2, 2], [1, 1, 1, 1]],
  dense: [[1, 1, 1, 1], [1, 1, 1, 1], [2, 1, 1], [1, 1, 2], ['t2', 't2', 't2'], [0.5, 0.5, 1, 1, 1], [0.5, 0.5, 0.5, 0.5, 1, 1]], calm: [[4], [4], [-4], [2, 2]] };
const SIX = { plain: [[6], [4, 2], [2, 2, 2], [-6], [2, 4]], busy: [[2, 2, 2], [1, 1, 1, 1, 1, 1], [4, 2], [3, 1, 2], [2, 1, 1, 2], [-2, 2, 2]],
  dense: [[1, 1, 1, 1, 1, 1], [2, 1, 1, 1, 1], [3, 1, 2]], calm: [[6], [6], [4, 2], [-6]] };
const LONG = { 8: [[8], [6, 2], [-8], [8]], 12: [[12], [8, 4], [-4, 8]], 16: [[16], [16], [8, 8], [12, 4], [-8, 8]] };

/** Beat groups (in 16ths) of a meter. */
export function groups({ beats, unit }, r) {
  const total = (16 / unit) * beats;
  if (unit === 8 && beats % 3 === 0) return Array(beats / 3).fill(6);
  if (unit === 8) { const g = []; let left = beats; while (left > 4) { g.push(4); left -= 2; } if (left === 3) g.push(6); else if (left === 4) g.push(4, 4); else g.push(left * 2);
    return g; }
  const g = [];
  let left = total;
  while (left > 0) g.push(Math.min(4, left)), (left -= 4);
  if (r.chance(0.35) && total >= 16) return [total === 16 && r.chance(0.5) ? 16 : 8, ...Array(Math.floor((total - 16) / 4) + (total === 16 ? 0 : 2)).fill(4)].reduce((o, v) => {
    const s = o.reduce((a, b) => a + b, 0); if (s + v <= total) o.push(v); return o; }, []).concat([]).reduce((o, v, i, a) => {
    o.push(v); if (i === a.length - 1) { let s = o.reduce((x, y) => x + y, 0); while (s < total) { const d = Math.min(4, total - s); o.push(d); s += d; } } return o; }, []);
  return g;
}

export function fill(meter, mode, r, walk) {
  const out = [];
  for (const g of groups(meter, r)) {
    const table = g === 6 ? SIX[mode] : LONG[g] ?? (g === 4 ? FOUR[mode] : [[g]]);
    const pattern = r.pick(table);
    const group = { len: g, tuplet: typeof pattern[0] === 'string', notes: [] };
    for (const p of pattern) {
      const tup = typeof p === 'string';
      const d = tup ? Number(p.slice(1)) : Math.abs(p);
      if (!BASE[d]) { for (let k = 0; k < d; k++) group.notes.push({ dur: 1, rest: true }); continue; }
      if (p < 0) { group.notes.push({ dur: d, rest: true }); continue; }
      group.notes.push(note(d, r, walk));
    }
    out.push(group);
  }
  return out;
}

export function note(dur, r, walk) {
  const pitches = [walk.step(r)];
  if (r.chance(walk.chords)) pitches.push(pitches[0] + r.pick([2, 4, 7, 7]));
  const n = { dur, pitches };
  if (r.chance(0.07)) n.accid = r.pick(['s', 'f', 'n']);
  if (r.chance(walk.artic)) n.artic = r.pick(['stacc', 'stacc', 'acc', 'acc', 'ten', 'marc']);
  if (r.chance(0.015) && dur >= 2) n.grace = walk.peek(r);
  if (r.chance(walk.tremolo) && dur >= 4) n.slash = r.pick([1, 2, 3]);
  return n;
}

/** A walk over diatonic steps counted from the middle line (0), kept inside [lo, hi]. */
export class Walk {
  constructor(r, { lo, hi, repeat = 0.2, chords = 0.03, artic = 0.1, tremolo = 0.02 }) {
    Object.assign(this, { lo, hi, repeat, chords, artic, tremolo });
    this.at = r.int(Math.max(lo, -4), Math.min(hi, 4));
  }
  step(r) {
    if (!r.chance(this.repeat)) this.at += r.chance(0.75) ? r.pick([-2, -1, 1, 2]) : r.int(-7, 7);
    if (this.at < this.lo) this.at = this.lo + r.int(0, 3);
    if (this.at > this.hi) this.at = this.hi - r.int(0, 3);
    return this.at;
  }
  peek(r) { return this.at + r.pick([-1, 1]); }
}
