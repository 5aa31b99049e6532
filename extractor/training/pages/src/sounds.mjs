// What sounds and what is silent inside bars with music: note heads and rests with their printed value, for the network's view along the staff.
import { boxOf, groups } from './style.mjs';

const GLYPHS = { E4E4: 2, E4E5: 4, E4E6: 8, E4E7: 16, E4E8: 32 }; // SMuFL: half rest, quarter rest ...

/** Rests at the start, the end and inside of bars, in place; every bar keeps a note. */
export function quieten(number, r) {
  for (const b of number.bars) {
    if (b.content !== 'music' || !r.chance(0.7)) continue;
    const flat = b.events.flatMap(g => g.notes.map(n => ({ g, n })));
    const lead = r.chance(0.5) ? r.int(1, 3) : 0, trail = r.chance(0.5) ? r.int(1, 3) : 0;
    flat.forEach(({ g, n }, i) => {
      const here = i < lead || i >= flat.length - trail || r.chance(0.12);
      if (!here || n.rest || g.tuplet || n.dur < 1 || n.dur > 12 || flat.filter(t => !t.n.rest).length < 2) return;
      for (const k of Object.keys(n)) if (k !== 'dur') delete n[k];
      n.rest = true;
    });
  }
}

/** Note heads and rests drawn on a system: {kind: 'note' | 'pause', box, text of a pause: '8', '4.'}. */
export function sounds(sys) {
  const out = sys.prims.filter(p => p.el.kind === 'notehead').map(p => ({ kind: 'note', box: boxOf([p]), bar: p.el.bar }));
  const dotted = new Set(sys.prims.filter(p => p.el.kind === 'dots' && p.el.rest).map(p => p.el.rest));
  for (const g of groups(sys, 'note-rest')) {
    const ly = /^r\d+v(\d+)d(\d)$/.exec(g[0].el.ctl), code = Object.keys(GLYPHS).find(c => g.some(p => p.glyph?.startsWith(c)));
    const value = ly ? ly[1] : GLYPHS[code], dots = ly ? Number(ly[2]) : dotted.has(g[0].el.rest) ? 1 : 0;
    if (!value) throw new Error('a rest of an unknown value');
    out.push({ kind: 'pause', box: boxOf(g), text: value + '.'.repeat(dots), bar: g[0].el.bar });
  }
  return out;
}
