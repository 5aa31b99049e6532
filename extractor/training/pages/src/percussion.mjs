// Percussion parts: staves of one or two lines, and drum staves.
import { CUES } from './words.mjs';
import { inkBox, mapPath } from './geometry.mjs';

const THINGS = ['Triangle', 'Wood Block', 'Sus. Cym.', 'Tambourine', 'Cymbals', 'S.D.', 'B.D.', 'Tam-tam', 'Mark Tree', 'Shaker', 'Temple Blocks', 'Castanets', 'Sleigh Bells', 'Ratchet', 'Whip', 'Cowbell', 'Guiro', 'Vibraslap', 'to Tri.', 'to W.B.', 'to Sus. Cym.', '(Tri.)', 'Tamb.', 'Cym. roll', 'choke', 'l.v.', 'soft mallets', 'brushes', 'damp', 'on rim', 'sticks', 'with mallets', 'Toms', 'Bongos', 'Congas', 'Finger Cym.', 'Anvil', 'Claves'];
export const PERC_PARTS = ['Percussion', 'Percussion 1', 'Percussion 2', 'Perc.', 'Drums', 'Drum Set', 'Percussion / Drums'];
/** Spaces between the lines of a staff of two. */
export const apart = lines => (lines === 2 ? 2 : 1);

/** Habits of a percussionist's part on staves of `lines` lines; `half` of its barlines' height, which is the house's own. */
export function percHabits(h, r, lines, half) {
  const p = { ...h, lines, clef: { shape: 'perc', line: 3 }, walk: { lo: 0, hi: 0 }, chords: 0, lyrics: false, fing: 0, keyChanges: 0, slur: 0, tremolo: r.pick([0.02, 0.1, 0.3]), artic: r.pick([0.03, 0.15]), resty: r.pick([0.25, 0.45, 0.6]), repeats: r.pick([0.02, 0.12, 0.4]), things: r.range(0.03, 0.15), heads: r.weighted([[null, 6], ['x', 2]]), perc: true };
  if (lines < 5) return { ...p, half: lines === 2 ? null : half };
  return { ...p, walk: h.walk, chart: true, slashes: r.range(0, 0.7), chordSigns: 0, chordsOver: 0, slashWay: r.weighted({ beats: 6, rhythm: 2, mixed: 3 }), crosses: 1, counts: r.weighted([[0, 2], [1, 3], [2, 2], [4, 2]]), repeats: r.pick([0.3, 0.6, 0.8]), resty: r.pick([0.1, 0.25, 0.45]), ghosts: r.chance(0.5) ? r.range(0.05, 0.3) : 0, dyn: r.range(0.05, 0.3) };
}

/** Puts a number on its staff: heads on the line or lines, no keys, instruments named. */
export function strike(number, r, h) {
  number.lines = h.lines; number.half = h.half; number.key = 0;
  const at = h.lines === 1 ? [0] : h.lines === 2 ? [-2, 2] : null;
  for (const b of number.bars) {
    b.key = 0; b.midClef = false; b.clef = h.clef; delete b.newKey; b.slur = false; delete b.fing;
    for (const g of [...(b.events ?? []), ...(b.cue ?? [])]) for (const n of g.notes) if (!n.rest) {
      delete n.accid; delete n.grace;
      if (at) { n.pitches = [r.pick(at)]; if (h.heads && r.chance(0.6)) n.heads = [h.heads]; }
    }
    if (r.chance(h.things) && b.content !== 'bar-repeat') b.words.push({ text: r.chance(0.9) ? r.pick(THINGS) : r.pick(CUES), place: r.chance(0.85) ? 'above' : 'below', style: 'dir', at: 1 });
  }
  return number;
}

/** Cuts the barlines of a staff of few lines to the height this house gives them. */
export function cutBars(sys, half) {
  if (!half) return;
  for (const p of sys.prims) if (p.el.kind === 'barline') {
    const b = inkBox(p.path, p.stroke), mid = (b[1] + b[3]) / 2;
    if (b[3] - b[1] < 1.2 || Math.abs(mid) > 0.5) continue;
    const own = (b[3] - b[1]) / 2;
    p.path = mapPath(p.path, (x, y) => [x, ((y - mid) * half) / own + mid]);
  }
}

/** Draws round brackets about some heads of a drum staff, as ghost notes have them. */
export function ghost(sys, share, r) {
  if (!share) return;
  for (const p of sys.prims.filter(q => q.el.kind === 'notehead')) {
    if (!r.chance(share)) continue;
    const b = inkBox(p.path, p.stroke), y = (b[1] + b[3]) / 2, d = 0.75, el = { kind: 'other', key: `ghost:${b[0].toFixed(2)}`, bar: p.el.bar };
    for (const s of [-1, 1]) { const x = s < 0 ? b[0] - 0.1 : b[2] + 0.1; sys.prims.push({ path: [['M', x, y - d], ['C', x + s * 0.45, y - 0.3, x + s * 0.45, y + 0.3, x, y + d]], fill: false, stroke: 0.14, el }); }
  }
}
