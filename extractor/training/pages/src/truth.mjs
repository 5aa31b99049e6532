// What is on a drawn system, read off its own ink: signs (staff by staff) and bar entries with their sides. Units: staff spaces.
import { inkBox, union } from './geometry.mjs';
import { sounds } from './sounds.mjs';
import { boxOf, groups } from './style.mjs';

const round = b => b.map(v => Math.round(v * 1000) / 1000);

/** Barlines of a system: strokes and dots put together into one sign per place. */
export function barlines(sys) {
  const items = sys.prims.filter(p => p.el.kind === 'barline' || (p.el.kind === 'bar-repeat-2' && isStroke(p))).map(p => ({ p, b: inkBox(p.path, p.stroke) })).sort((a, b) => a.b[0] - b.b[0]);
  const clusters = [];
  for (const it of items) {
    const last = clusters[clusters.length - 1];
    if (last && it.b[0] - last.x1 < 1.15) { last.items.push(it); last.x1 = Math.max(last.x1, it.b[2]); }
    else clusters.push({ items: [it], x1: it.b[2] });
  }
  return clusters.map(c => typed(c.items, least(sys))).filter(Boolean);
}
/** Barlines of a staff of few lines may be two spaces high, those of two lines that stand close one. */
const least = sys => (sys.lines === 2 ? 0.8 : sys.lines ? 1.3 : 2.2);
const isStroke = p => { const b = inkBox(p.path, p.stroke); return b[3] - b[1] > 2.6 && b[2] - b[0] < 1; };
function typed(items, least) {
  const tall = items.filter(i => i.b[3] - i.b[1] > least), dots = items.filter(i => i.b[3] - i.b[1] <= 1.2 && !tall.includes(i));
  if (!tall.length) return null;
  // strokes of several staves at one place count once; several dash pieces would be tall only together
  const xs = []; for (const t of tall) { const w = t.p.stroke || t.b[2] - t.b[0], c = (t.b[0] + t.b[2]) / 2; const same = xs.find(x => Math.abs(x.c - c) < 0.12); if (!same) xs.push({ c, w, dash: t.p.dash }); }
  const ink = tall.reduce((b, t) => union(b, t.b), null), all = items.reduce((b, t) => union(b, t.b), null), mid = (ink[0] + ink[2]) / 2;
  const left = dots.some(d => d.b[2] < mid), right = dots.some(d => d.b[0] > mid);
  const type = left && right ? 'repeat-both' : right ? 'repeat-start' : left ? 'repeat-end' : xs.some(x => x.dash) ? 'dashed' : xs.length >= 2 ? (Math.max(...xs.map(x => x.w)) > 1.5 * Math.min(...xs.map(x => x.w)) ? 'final' : 'double') : xs[0].w > 0.45 && items[0].p.el.lone === 'final' ? 'final' : 'single';
  return { x: mid, type, box: all, bar: items[items.length - 1].p.el.bar, prims: items.map(i => i.p) };
}

/** Which meter a drawn signature shows; courtesy signatures belong to the next system's first bar. */
export function resolveMeters(sys, number) {
  const bl = barlines(sys), lastX = bl.length ? bl[bl.length - 1].x : Infinity;
  const bars = [...new Set(sys.prims.map(p => p.el.bar).filter(b => b >= 0))];
  for (const g of groups(sys, 'meter')) {
    const b = boxOf(g), courtesy = b[0] > lastX && Math.max(...bars) + 1 < number.bars.length && number.bars[Math.max(...bars) + 1].newMeter;
    const owner = number.bars[courtesy ? Math.max(...bars) + 1 : g[0].el.bar];
    const m = owner?.meter;
    for (const p of g) p.el = { ...p.el, meter: m, courtesy, glyph: p.el.key };
    if (g.some(p => p.fill) && m) { const text = m.sym ?? `${m.beats}/${m.unit}`; for (const p of g) p.el.text = text; }
  }
}

const KINDS = ['multi-rest', 'block-rest', 'rest', 'bar-repeat', 'bar-repeat-2', 'count', 'meter', 'rehearsal', 'bar-number', 'ending', 'segno', 'coda', 'fermata', 'caesura', 'word', 'clef', 'key'];
/** What the pages of charts tell besides. */
const CHART_KINDS = ['slash', 'chord', 'lyric', 'dynam', 'counter', 'rptnum'];

/** @returns {{staves: sign[][], bars: object[], first: number}} ; throws when ink and music disagree. */
export function readSystem(sys, number, withSounds = false, withCharts = false) {
  const bl = barlines(sys), n = sys.staves.length;
  const idx = [...new Set(sys.prims.filter(p => p.el.bar >= 0 && p.el.kind !== 'ending' && p.el.kind !== 'meter').map(p => p.el.bar))].sort((a, b) => a - b);
  const first = idx[0], last = idx[idx.length - 1];
  if (last - first + 1 !== idx.length) throw new Error(`bars ${first}..${last} have gaps`);
  const entries = [];
  for (let i = first; i <= last; i++) { const b = number.bars[i]; entries.push({ i, b, part: 0 }); if (b.content === 'bar-repeat-2') entries.push({ i, b, part: 1 }); }
  const missing = number.bars[last].right === 'none' ? 1 : 0;
  let start = null;
  const lines = [...bl];
  if (lines.length === entries.length - missing + 1) start = lines.shift();
  if (lines.length !== entries.length - missing) throw new Error(`${bl.length} barlines for ${entries.length} bars (${first}..${last})`);
  if (start && start.type !== 'repeat-start') throw new Error(`start barline is ${start.type}`);
  const clefs = groups(sys, 'clef').map(boxOf), keys = groups(sys, 'key').map(boxOf);
  let x0 = Math.max(0, ...clefs.filter(b => b[0] < 3).map(b => b[2]));
  x0 = Math.max(x0, ...keys.filter(b => b[0] < x0 + 2.5).map(b => b[2]));
  if (start) x0 = start.x;
  const end = sys.staves[0].x1;
  const bars = entries.map((e, k) => ({ ...e, x0: k ? lines[k - 1].x : x0, x1: k < lines.length ? lines[k].x : end, end: k < lines.length ? lines[k].type : 'none', start: k ? lines[k - 1].type : start ? 'repeat-start' : 'none' }));
  for (const b of bars) if (b.x1 <= b.x0) throw new Error('bar of no width');
  const staves = sys.staves.map(() => []);
  const staffOf = box => { const y = (box[1] + box[3]) / 2; let best = 0; sys.staves.forEach((s, k) => { if (Math.abs(s.y - y) < Math.abs(sys.staves[best].y - y)) best = k; }); return best; };
  for (const l of bl) for (let k = 0; k < n; k++) {
    const s = sys.staves[k], own = l.prims.filter(p => { const b = inkBox(p.path, p.stroke); return b[1] < s.y + 2 && b[3] > s.y - 2; });
    if (!own.length) continue;
    const b = boxOf(own);
    staves[k].push({ kind: 'barline', type: l.type, box: n > 1 ? [b[0], Math.max(b[1], s.y - 2.1), b[2], Math.min(b[3], s.y + 2.1)] : b });
  }
  const lastX = bl.length ? bl[bl.length - 1].x : Infinity;
  for (const kind of withCharts ? [...KINDS, ...CHART_KINDS] : KINDS) for (const g of groups(sys, kind)) {
    const ps = kind === 'bar-repeat-2' ? g.filter(p => !isStroke(p)) : g;
    if (!ps.length) continue;
    const box = boxOf(ps), el = g.find(p => p.el.text)?.el ?? g[0].el, sign = { kind, box };
    const b = number.bars[el.bar];
    if (kind === 'count') sign.text = el.text;
    else if (kind === 'meter') { if (!el.text) continue; sign.text = el.text; if (el.courtesy) sign.courtesy = true; }
    else if (kind === 'rehearsal') { sign.text = b.rehearsal.text; sign.enclosure = b.rehearsal.enclosure; }
    else if (kind === 'ending') { if (el.text) sign.text = el.text.replace('1. 2.', '1.,2.'); }
    else if (kind === 'word' || kind === 'bar-number') { sign.text = el.text; if (el.word?.sign) sign.sign = el.word.sign; }
    else if (kind === 'key' && el.text) sign.text = el.text;
    else if (CHART_KINDS.includes(kind) && el.text) sign.text = el.text;
    sign.bar = el.bar;
    staves[staffOf(box)].push(sign);
  }
  if (withCharts) for (const b of bars) for (const own of staves) own.push({ kind: 'bar', text: b.b.slashed ? 'slashed' : b.b.content, box: [b.x0, -2, b.x1, 2], bar: b.i });
  if (withSounds) for (const s of sounds(sys)) staves[staffOf(s.box)].push(s);
  for (const l of staves) { for (const s of l) s.box = round(s.box); l.sort((a, b) => a.box[0] - b.box[0]); }
  // what is printed where, checked against the music
  for (const b of bars) {
    const own = staves[0].filter(s => s.kind === 'meter' && !s.courtesy && (s.box[0] + s.box[2]) / 2 < b.x1 && ((s.box[0] + s.box[2]) / 2 > b.x0 || b === bars[0]));
    b.printed = own.length > 0;
    if (b.printed !== !!(b.b.newMeter && b.part === 0)) throw new Error(`bar ${b.i}: meter printed ${b.printed}`);
    if (b.part === 0 && b.b.rehearsal && !staves[0].some(s => s.kind === 'rehearsal' && s.bar === b.i)) throw new Error(`bar ${b.i}: rehearsal mark not drawn`);
    if (b.b.content === 'multi-rest' && !staves[0].some(s => s.kind === 'count' && s.bar === b.i)) throw new Error(`bar ${b.i}: count not drawn`);
  }
  return { staves, bars, first, last, lastX };
}
