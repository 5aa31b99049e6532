// Hand copying: every element a little off, strokes of a pen, barlines slanted, short or long. Truth follows, since boxes are read off the result.
import { affine, inkBox, mapPath, mul } from './geometry.mjs';
import { penStrokes } from './pen.mjs';
import { boxOf } from './style.mjs';

/** A smooth random field over the plane, about +-1. */
export function field(r, wave) {
  const t = Array.from({ length: 5 }, () => ({ a: r.range(0, 6.28), u: r.gauss(1) / wave, v: r.gauss(1) / wave, w: r.range(0.5, 1) }));
  const n = t.reduce((s, q) => s + q.w, 0);
  return (x, y) => t.reduce((s, q) => s + q.w * Math.sin(6.28 * (q.u * x + q.v * y) + q.a), 0) / n;
}
export function makeHand(r) {
  const variants = new Map();
  const c = { mono: r.chance(0.6), variant: code => { if (!variants.has(code)) variants.set(code, r.int(0, 3)); return variants.get(code); }, beam: r.range(0.18, 0.42),
    size: r.range(0.02, 0.09), turn: r.range(0.01, 0.08), shift: r.range(0.02, 0.12), wob: r.range(0.02, 0.1), wave: r.range(3, 10), pen: r.range(0.14, 0.34), slant: r.range(0.01, 0.09), over: r.range(0.05, 0.5),
    ruled: r.chance(0.6), dash: r.chance(0.35), lean: r.gauss(0.05), shear: r.gauss(0.06), empty: r.chance(0.35) ? r.range(2, 30) : 0, slantRest: r.chance(0.4), bold: r.chance(0.3) ? r.range(0.03, 0.1) : 0 };
  return (sys, q) => handSystem(sys, c, q);
}
function handSystem(input, c, r) {
  const sys = c.empty ? longer(input, c.empty) : input;
  const fx = field(r, c.wave * 2), fy = field(r, c.wave * 2), bend = field(r, 60);
  const warp = (x, y) => [x + c.wob * fx(x, y), y + c.wob * fy(x, y)];
  const bendAmp = c.ruled ? 0 : r.range(0, 0.35);
  const whole = (x, y) => [x, y + bendAmp * bend(x, 0)];
  const jitter = new Map(), out = [];
  const keyed = p => (/^(notehead|rest|meter|count|clef|key|accid|fermata|segno|coda|bar-repeat|multi-rest|block-rest|rehearsal|word|artic|dynam|note-rest|flag|caesura)/.test(p.el.kind) ? `${p.el.kind}|${p.el.key}|${/notehead|accid|key|dynam/.test(p.el.kind) ? out.length : ''}` : null);
  const boxes = new Map(), slants = new Map();
  for (const p of sys.prims) {
    const kind = p.el.kind; let path = p.path, stroke = p.stroke, fill = p.fill;
    if (kind === 'staffline') { path = mapPath(lineSteps(path), (x, y) => whole(x, c.ruled ? y : y + 0.035 * fy(x * 3, y * 9))); out.push({ ...p, path, join: 'round' }); continue; }
    if (kind === 'barline' && inkBox(path, stroke)[3] - inkBox(path, stroke)[1] > 2.2 && stroke) {
      const b = inkBox(path, 0), x = (b[0] + b[2]) / 2; if (!slants.has(p.el.key)) slants.set(p.el.key, [c.slant * r.gauss(1) + c.lean * 0.4, c.pen * r.range(0.75, 1.25)]);
      const [slant, thin] = slants.get(p.el.key), sl = slant + r.gauss(0.008), t = b[1] - c.over * r.gauss(0.7), e = b[3] + c.over * r.gauss(0.7), H = e - t;
      const heavy = stroke > 0.34;
      const w = heavy ? Math.max(stroke * r.range(0.7, 1.1), 1.7 * thin) : thin * r.range(0.92, 1.08);
      const k = r.gauss(0.04);
      path = [['M', x + sl * H / 2, t], ['C', x + sl * H / 4 + k, t + H / 3, x - sl * H / 4 + k, t + 2 * H / 3, x - sl * H / 2, e]];
      out.push({ ...p, path: mapPath(path, whole), stroke: w, cap: r.chance(0.7) ? 'round' : 'butt' }); continue;
    }
    const id = keyed(p);
    if (id) {
      if (!jitter.has(id)) {
        const g = sys.prims.filter(o => o.el.kind === kind && o.el.key === p.el.key && (!/notehead|accid|key|dynam/.test(kind) || o === p)); const b = boxOf(g); boxes.set(id, b);
        const cx = (b[0] + b[2]) / 2, cy = (b[1] + b[3]) / 2, long = kind === 'multi-rest' ? b[2] - b[0] : 0, a = long ? Math.max(-0.5 / long, Math.min(0.5 / long, r.gauss(c.turn))) : r.gauss(c.turn), s = long ? r.range(0.88, 1) : 1 + r.gauss(c.size), s2 = s * (1 + r.gauss(c.size * 0.6)), wide = /word|count|multi|rehearsal/.test(kind) ? 0.4 : 1;
        const m = [Math.cos(a * wide) * s, Math.sin(a * wide) * s, (-Math.sin(a * wide) + c.shear * wide) * s2, Math.cos(a * wide) * s2, 0, 0];
        jitter.set(id, mul(mul([1, 0, 0, 1, cx + (long ? 0 : r.gauss(c.shift)), cy + r.gauss(c.shift)], m), [1, 0, 0, 1, -cx, -cy]));
      }
      if (kind === 'notehead' && c.dash && fill && /E0A4/.test(p.glyph ?? '')) {
        const b = boxes.get(id), cx = (b[0] + b[2]) / 2, cy = (b[1] + b[3]) / 2;
        path = [['M', cx - 0.32, cy + 0.22], ['L', cx + 0.32, cy - 0.22]]; fill = false; stroke = 0.42;
        out.push({ ...p, path: mapPath(path, (x, y) => whole(...affine(jitter.get(id))(x, y))), fill, stroke, cap: 'round' }); continue;
      }
      path = mapPath(path, affine(jitter.get(id)));
    }
    if (c.mono && kind === 'beam' && fill && path.filter(q => q[0] !== 'Z').length <= 5) {
      const b = path.filter(q => q[0] !== 'Z').slice(0, 4).map(q => q.slice(-2)).sort((a, z) => a[0] - z[0]);
      if (b.length === 4) { path = [['M', b[0][0] / 2 + b[1][0] / 2, (b[0][1] + b[1][1]) / 2 + r.gauss(0.1)], ['L', (b[2][0] + b[3][0]) / 2 + r.gauss(0.15), (b[2][1] + b[3][1]) / 2 + r.gauss(0.15)]]; fill = false; stroke = c.beam; }
    }
    if (c.mono && p.glyph && fill) {
      const code = p.glyph.split('-')[0], pen = penStrokes(code, c.variant(code), inkBox(path), c.pen * 0.85, r);
      if (pen) { for (const q of pen) out.push({ ...p, path: mapPath(q.path, (x, y) => whole(x, y)), fill: false, stroke: q.stroke, cap: 'round', join: 'round' }); continue; }
    }
    if (stroke) { path = lineSteps(path, 3); if (kind === 'stem') stroke = c.pen * r.range(0.6, 1.1); else stroke = Math.max(stroke * r.range(0.8, 1.3), c.pen * 0.6); }
    path = mapPath(path, (x, y) => whole(...warp(x, y)));
    if (fill && c.bold && !stroke) stroke = c.bold;
    out.push({ ...p, path, stroke, fill, cap: 'round', join: 'round' });
  }
  const midlines = sys.staves.map(s => { const m = []; for (let i = 0; i <= 16; i++) { const x = s.x0 + ((s.x1 - s.x0) * i) / 16; m.push(whole(x, s.y)); } return m; });
  return { ...sys, prims: out, midlines };
}
/** Music paper ruled to the margin: the lines go on after the last barline. */
function longer(sys, by) {
  const x1 = sys.staves[0].x1, to = x1 + by;
  const prims = sys.prims.map(p => (p.el.kind === 'staffline' && inkBox(p.path)[2] > x1 - 1 ? { ...p, path: p.path.map(q => (q[0] === 'L' && q[1] > x1 - 1 ? ['L', to, q[2]] : q)) } : p));
  return { ...sys, prims, staves: sys.staves.map(s => ({ ...s, x1: to })) };
}
/** Straight pieces cut short, so that a smooth field can bend them. */
function lineSteps(path, step = 2) {
  const out = []; let x = 0, y = 0;
  for (const c of path) {
    if (c[0] === 'L') { const n = Math.max(1, Math.ceil(Math.hypot(c[1] - x, c[2] - y) / step)); for (let i = 1; i <= n; i++) out.push(['L', x + ((c[1] - x) * i) / n, y + ((c[2] - y) * i) / n]); }
    else out.push(c);
    if (c[0] !== 'Z') { x = c[c.length - 2]; y = c[c.length - 1]; }
  }
  return out;
}
