// What sounds and what is silent inside bars with music: note heads and rests with their printed value, for the network's view along the staff.
import { boxOf, groups } from './style.mjs';

const GLYPHS = { E4E3: 1, E4E4: 2, E4E5: 4, E4E6: 8, E4E7: 16, E4E8: 32 }; // SMuFL: whole rest, half rest, quarter rest ...

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

const HEADS = { E0A2: v => v === 1, E0A3: v => v === 2, E0A4: v => v > 2 }; // SMuFL: heads of whole, half and black notes

/**
 * Note heads and rests drawn on a system: {kind: 'note' | 'pause', box, text: '8', '4.' as printed, tuplet}. Grace notes and cues have no
 * text and are `small`; the rests of a cue keep theirs.
 */
export function sounds(sys) {
  const out = sys.prims.filter(p => p.el.kind === 'notehead').map(head);
  const dotted = new Set(sys.prims.filter(p => p.el.kind === 'dots' && p.el.rest).map(p => p.el.rest));
  for (const g of groups(sys, 'note-rest')) {
    const el = g[0].el, ly = /^r\d+v(\d+)d(\d)t(\d)$/.exec(el.ctl), code = Object.keys(GLYPHS).find(c => g.some(p => p.glyph?.startsWith(c)));
    const value = ly ? ly[1] : GLYPHS[code], dots = ly ? Number(ly[2]) : dotted.has(el.rest) ? 1 : 0;
    if (!value && g.some(p => p.glyph)) throw new Error('a rest of an unknown value');
    if (!value) { out.push({ kind: 'pause', box: boxOf(g), small: true, bar: el.bar }); continue; } // LilyPond tags all rests but those of cues
    out.push({ kind: 'pause', box: boxOf(g), text: value + '.'.repeat(dots), ...(/t1$/.test(ly ? el.ctl : el.worth) ? { tuplet: true } : {}), bar: el.bar });
  }
  return out;
}

function head(p) {
  const m = /v(\d+)d(\d)t(\d)$/.exec(p.el.worth || p.el.ctl), said = { kind: 'note', box: boxOf([p]), bar: p.el.bar };
  if (!m) return { ...said, small: true };
  const fits = HEADS[Object.keys(HEADS).find(c => p.glyph?.startsWith(c))];
  if (fits && !fits(Number(m[1]))) throw new Error('a note head of another value');
  return { ...said, text: m[1] + '.'.repeat(Number(m[2])), ...(m[3] === '1' ? { tuplet: true } : {}) };
}
