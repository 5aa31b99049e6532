// Display list -> systems in staff spaces: {staves:[{y,x0,x1}], prims:[{path,fill,stroke,dash,el}], texts:[...]}; y = 0 is the first staff's middle line.
import { affine, inkBox, mapPath, mul, scaleOf } from './geometry.mjs';
import { barlines } from './truth.mjs';
import { boxOf, groups } from './style.mjs';

/** @param keyOf primitive -> system key (insertion order = top to bottom) */
/** @param few lines of a staff that has fewer than five and so doesn't tell its space: how many, and the space */
export function systemsFrom(list, keyOf, stavesPerSystem = 1, few = null) {
  const by = new Map();
  for (const p of list) { const k = keyOf(p); if (k === null) continue; if (!by.has(k)) by.set(k, []); by.get(k).push(p); }
  return [...by.values()].map(ps => normalise(ps, stavesPerSystem, few)).filter(Boolean);
}

function normalise(ps, n, few) {
  const lines = ps.filter(p => p.el.kind === 'staffline').map(p => inkBox(p.path));
  const ys = [...new Set(lines.map(b => Math.round(((b[1] + b[3]) / 2) * 10) / 10))].sort((a, b) => a - b);
  const rows = []; for (const y of ys) { if (!rows.length || y - rows[rows.length - 1] > 1e-6 + 0.2) rows.push(y); }
  if (rows.length !== (few?.lines ?? 5 * n)) return null;
  if (few) { const mid = (rows[0] + rows.at(-1)) / 2; rows.splice(0, rows.length, ...[-2, -1, 0, 1, 2].map(i => mid + i * few.space)); }
  const space = (rows[4] - rows[0]) / 4, x0 = Math.min(...lines.map(b => b[0])), y0 = rows[2];
  const m = [1 / space, 0, 0, 1 / space, -x0 / space, -y0 / space], f = affine(m);
  const sys = { prims: [], texts: [], staves: [], ...(few ? { lines: few.lines } : {}) };
  for (let k = 0; k < n; k++) {
    const own = lines.filter(b => Math.abs((b[1] + b[3]) / 2 - rows[5 * k + 2]) < 2.2 * space);
    sys.staves.push({ y: (rows[5 * k + 2] - y0) / space, x0: 0, x1: (Math.max(...own.map(b => b[2])) - x0) / space });
  }
  for (const p of ps) {
    if (p.text) {
      const mm = mul(m, p.m), k = scaleOf(mm), [x, y] = affine(mm)(p.x, p.y);
      if (!p.text.length) continue;
      sys.texts.push({ s: p.text.map(t => t.s).join(''), size: Math.max(...p.text.map(t => t.size)) * k, x, y, anchor: p.anchor, el: p.el, italic: p.text[0].italic, bold: p.text[0].bold });
    } else if (!p.white) sys.prims.push({ path: mapPath(p.path, f), fill: p.fill, stroke: p.stroke / space, dash: p.dash?.map(v => v / space), cap: p.cap, glyph: p.chain.findLast(c => c.class === 'glyph')?.id, el: p.el });
  }
  return sys;
}

/** Engravers that do not say which bar a thing belongs to: bars are told by the barlines in order, and checked against the music. */
export function assignBars(systems, number) {
  const expect = [];
  number.bars.forEach((b, i) => { if (b.content === 'bar-repeat-2') expect.push({ i, type: 'single' }); if (!(b.right === 'none' && i === number.bars.length - 1)) expect.push({ i, type: b.right }); });
  let at = 0;
  systems.forEach((sys, s) => {
    const lines = barlines(sys), ends = [];
    const head = Math.max(0, ...['clef', 'key', 'meter'].flatMap(k => groups(sys, k)).map(boxOf).filter(b => b[0] < 14 && !lines.some(l => l.x < b[0])).map(b => b[2]));
    lines.forEach((l, k) => {
      if (k === 0 && l.type === 'repeat-start' && l.x < head + 4) { for (const p of l.prims) p.el = { ...p.el, bar: expect[at]?.i ?? -1 }; return; }
      const e = expect[at++];
      if (!e) throw new Error('more barlines than bars');
      const atLineEnd = k === lines.length - 1 && s < systems.length - 1;
      const want = atLineEnd && e.type === 'repeat-start' ? 'single' : atLineEnd && e.type === 'repeat-both' ? 'repeat-end' : e.type;
      if (l.type !== want && !(atLineEnd && l.type === e.type)) throw new Error(`barline ${l.type} where ${e.type} is meant`);
      for (const p of l.prims) p.el = { ...p.el, bar: e.i };
      ends.push({ x: l.x, i: e.i });
    });
    const open = expect[at]?.i ?? number.bars.length - 1;
    const barAt = x => ends.find(e => x < e.x)?.i ?? (s === systems.length - 1 && number.bars.at(-1).right === 'none' ? open : ends.at(-1)?.i ?? open);
    const keyBar = new Map();
    for (const p of [...sys.prims, ...sys.texts]) {
      if (p.el.bar >= 0 || p.el.kind === 'staffline') continue;
      const own = sys.prims.filter(o => o.el.key === p.el.key && o.el.kind === p.el.kind);
      if (!keyBar.has(p.el.key)) { const b = own.length ? boxOf(own) : [p.x, 0, p.x, 0]; keyBar.set(p.el.key, barAt(p.el.kind === 'bar-number' ? b[2] + 1.5 : p.el.kind === 'ending' ? b[0] + 0.6 : (b[0] + b[2]) / 2)); }
      p.el = { ...p.el, bar: keyBar.get(p.el.key) };
    }
  });
  if (at !== expect.length) throw new Error(`${at} barlines drawn, ${expect.length} meant`);
  for (const sys of systems) for (const g of groups(sys, 'rest')) {
    const b = number.bars[g[0].el.bar];
    if (b?.content === 'multi-rest') { const box = boxOf(g), kind = b.block ? 'block-rest' : 'multi-rest'; for (const p of g) p.el = { ...p.el, kind, key: `${kind}:b${p.el.bar}` }; }
  }
  return systems;
}
