// What players write into a part: circles, glasses, words, arrows, slashes, counts, and what is left of rubbed-out marks.
import { Resvg } from '../../extractor/training/pages/src/draw.mjs';
import { HAND, textPaths } from '../../extractor/training/pages/src/fonts.mjs';
import { affine, mapPath, pathText } from '../../extractor/training/pages/src/geometry.mjs';
import { grain, image, smoothNoise } from './raster.mjs';

const WORDS = ['watch!', 'slow', 'in 2', 'in 4', 'mute off', 'wait', 'count!', 'low E', 'cut', 'CUT', 'out', 'push', 'back', 'vamp', 'x3', '4x', 'soft', 'loud', 'bow', 'pizz!', 'V.S.', 'Time', 'w/ drums', 'w/ pno', 'cue: bell', 'light', 'short', 'long', 'NO', 'tacet', 'solo', 'drop D', 'rit!', 'click', 'Bb!', 'F#', 'fast', 'dial.', 'go on'];

/** The box of paths whose text has pairs of numbers only, as corners. */
function around(paths, by) {
  const v = paths.join(' ').match(/-?\d+(\.\d+)?/g).map(Number), xs = v.filter((_, i) => i % 2 === 0), ys = v.filter((_, i) => i % 2), [x0, x1, y0, y1] = [Math.min(...xs) - by, Math.max(...xs) + by, Math.min(...ys) - by, Math.max(...ys) + by];
  return [[x0, y0], [x1, y0], [x1, y1], [x0, y1]];
}
/**
 * @param page the page in staff spaces with placed systems, @param map its truth at k px a space.
 * @returns three planes with the marks on, what was drawn (kind, box, words; px of `src`), and how much of each pixel is drawn.
 */
export function pencil(src, map, k, r) {
  const shapes = [], drawn = [], said = [], pen = () => ({ w: r.range(0.13, 0.32) * k, c: r.chance(0.82) ? gray(r) : r.pick(['rgb(190,40,40)', 'rgb(40,60,170)', 'rgb(200,90,30)']), o: r.range(0.62, 1) });
  const put = (d, p = pen()) => shapes.push(`<path d="${d}" fill="none" stroke="${p.c}" stroke-width="${p.w.toFixed(1)}" stroke-opacity="${p.o.toFixed(2)}" stroke-linecap="round" stroke-linejoin="round"/>`);
  const wob = s => r.gauss(s * k);
  const loop = (x, y, rx, ry, p) => { const a0 = r.range(0, 6.28), n = 22, turns = r.range(1, 1.25); let d = ''; for (let i = 0; i <= n * turns; i++) { const a = a0 + (6.283 * i) / n; d += `${i ? 'L' : 'M'}${(x + rx * Math.cos(a) + wob(0.06)).toFixed(1)} ${(y + ry * Math.sin(a) + wob(0.06)).toFixed(1)}`; } put(d, p); };
  const stroke = (x0, y0, x1, y1, p) => put(`M${x0.toFixed(1)} ${y0.toFixed(1)}Q${((x0 + x1) / 2 + wob(0.25)).toFixed(1)} ${((y0 + y1) / 2 + wob(0.25)).toFixed(1)} ${x1.toFixed(1)} ${y1.toFixed(1)}`, p);
  const write = (s, x, y, size, p = pen()) => { said.push(s); const t = textPaths(s, r.pick(HAND), size * k), a = r.gauss(0.06), m = [Math.cos(a), Math.sin(a), -Math.sin(a), Math.cos(a), x, y]; for (const q of t.parts) shapes.push(`<path d="${pathText(mapPath(q, affine(m)))}" fill="${p.c}" fill-opacity="${p.o.toFixed(2)}" stroke="${p.c}" stroke-width="${(p.w * 0.25).toFixed(1)}" stroke-opacity="${p.o.toFixed(2)}"/>`); };
  const bars = map.bars.map(b => { const [a, c, , d] = b.outline; return { b, x0: a[0], x1: c[0], t: a[1], m: d[1] }; }), any = () => r.pick(bars);
  const acts = {
    circle: () => { const b = r.pick(bars.filter(q => q.b.rehearsal || q.b.meter.printed || q.b.words) .concat(bars.slice(0, 1))); const w = b.b.words?.[0]?.box; if (w) loop((w[0] + w[2]) / 2, (w[1] + w[3]) / 2, (w[2] - w[0]) * 0.6 + 0.6 * k, (w[3] - w[1]) * 0.7 + 0.5 * k); else loop(b.x0 + r.range(0, 2) * k, b.t - r.range(1, 4) * k, r.range(1.5, 2.6) * k, r.range(1.4, 2.4) * k); },
    circleBar: () => { const b = any(); loop((b.x0 + b.x1) / 2, (b.t + b.m) / 2, Math.min(7 * k, (b.x1 - b.x0) * r.range(0.25, 0.5)), r.range(2.4, 3.8) * k); },
    glasses: () => { const b = any(), x = b.x0 + r.range(0.2, 0.8) * (b.x1 - b.x0), y = b.t - r.range(1.6, 4.5) * k, q = r.range(0.7, 1.2) * k, p = pen(); loop(x - q * 1.25, y, q, q * 0.85, p); loop(x + q * 1.25, y, q, q * 0.85, p); stroke(x - q * 0.3, y - 0.1 * k, x + q * 0.3, y - 0.1 * k, p); stroke(x - q * 2.2, y, x - q * 3, y - q * 0.7, p); stroke(x + q * 2.2, y, x + q * 3, y - q * 0.7, p); },
    word: () => { const b = any(); write(r.pick(WORDS), b.x0 + r.range(0, 0.6) * (b.x1 - b.x0), r.chance(0.7) ? b.t - r.range(1, 4.5) * k : b.m + r.range(2, 4) * k, r.range(1.8, 3.4)); },
    slash: () => { const b = any(), p = pen(); stroke(b.x0 + 0.3 * k, b.m + k, b.x1 - 0.3 * k, b.t - k, p); if (r.chance(0.5)) stroke(b.x0 + 0.3 * k, b.t - k, b.x1 - 0.3 * k, b.m + k, p); },
    counts: () => { const b = any(), n = r.int(2, 4), p = pen(); for (let i = 0; i < n; i++) write(String(i + 1), b.x0 + ((i + 0.5) * (b.x1 - b.x0)) / n, b.t - r.range(1, 1.6) * k, r.range(1.3, 2), p); },
    ticks: () => { const b = any(), n = r.int(2, 4), p = pen(); for (let i = 0; i < n; i++) { const x = b.x0 + ((i + 0.4) * (b.x1 - b.x0)) / n + wob(0.2); stroke(x, b.t - r.range(0.4, 0.9) * k, x + wob(0.15), b.t - r.range(1.5, 2.4) * k, p); } },
    arrow: () => { const b = any(), p = pen(), y = b.t - r.range(1.4, 4) * k, L = r.range(3, 9) * k, x = b.x0, s = r.pick([-1, 1]); stroke(x, y, x + s * L, y + wob(0.5), p); stroke(x + s * L, y, x + s * (L - 0.9 * k), y - 0.7 * k, p); stroke(x + s * L, y, x + s * (L - 0.9 * k), y + 0.7 * k, p); },
    bracket: () => { const b = any(), p = pen(), h = r.range(0.6, 1.6) * k; stroke(b.x0 + 0.25 * k, b.t - h, b.x0 + 0.25 * k, b.m + h, p); stroke(b.x0 + 0.25 * k, b.t - h, b.x0 + 1.4 * k, b.t - h, p); stroke(b.x0 + 0.25 * k, b.m + h, b.x0 + 1.4 * k, b.m + h, p); if (r.chance(0.5)) write('CUT', b.x0, b.t - 1.6 * k, 2, p); },
    accent: () => { const b = any(), x = b.x0 + r.range(0.2, 0.8) * (b.x1 - b.x0), y = b.t - r.range(0.8, 1.6) * k, p = pen(); stroke(x, y - 0.5 * k, x + 1.2 * k, y, p); stroke(x + 1.2 * k, y, x, y + 0.5 * k, p); },
    hairpin: () => { const b = any(), p = pen(), y = b.m + r.range(1.5, 3) * k, x1 = Math.min(b.x1, b.x0 + 10 * k); stroke(b.x0 + k, y, x1, y - 0.7 * k, p); stroke(b.x0 + k, y, x1, y + 0.7 * k, p); },
    accidental: () => { const b = any(), p = pen(); write(r.pick(['#', 'b', '♮']), b.x0 + r.range(0.2, 0.8) * (b.x1 - b.x0), (b.t + b.m) / 2 + r.range(-1.5, 2) * k, r.range(1.8, 2.6), p); },
  };
  const n = r.int(7, 22), table = { circle: 4, circleBar: 2, glasses: 3, word: 6, slash: 1.2, counts: 2, ticks: 1.5, arrow: 1.5, bracket: 1, accent: 2, hairpin: 1.2, accidental: 2 };
  for (let i = 0; i < n; i++) {
    const kind = r.weighted(table), from = shapes.length;
    acts[kind]();
    const own = shapes.slice(from).map(p => p.match(/ d="([^"]*)"/)[1]).filter(Boolean), text = said.splice(0).join(' ');
    if (own.length) drawn.push({ kind, outline: around(own, 0.12 * k), ...(text ? { text } : {}) });
  }
  const marks = render(shapes, src), smear = [];
  shapes.length = 0;
  for (let i = r.int(1, 5); i > 0; i--) acts[r.weighted(table)](); // rubbed out: a faint ghost and a grey smear
  const ghosts = render(shapes, src), g = grain(r), paper = smoothNoise(r, src.w, src.h, Math.max(2, 0.12 * k)), ghost = r.range(0.08, 0.25);
  for (let i = r.int(1, 4); i > 0; i--) { const b = any(); smear.push({ x: (b.x0 + b.x1) / 2, y: b.t - r.range(-2, 4) * k, rx: r.range(3, 9) * k, ry: r.range(1, 3) * k, v: r.range(6, 22) }); }
  const planes = [0, 1, 2].map(ch => {
    const o = image(src.w, src.h);
    for (let i = 0, y = 0; y < src.h; y++) for (let x = 0; x < src.w; x++, i++) {
      let c = src.d[i];
      const a = (marks[i * 4 + 3] / 255) * Math.max(0.25, Math.min(1, 0.82 + 0.3 * paper(x, y))), q = ghosts[i * 4 + 3] / 255;
      if (q) c = c * (1 - ghost * q) + ghost * q * 120;
      if (a) c = Math.min(c, c * (1 - a) + a * (marks[i * 4 + ch] / (marks[i * 4 + 3] / 255 || 1)));
      o.d[i] = c;
    }
    for (const s of smear) for (let y = Math.max(0, Math.floor(s.y - s.ry)); y < Math.min(src.h, s.y + s.ry); y++) for (let x = Math.max(0, Math.floor(s.x - s.rx)); x < Math.min(src.w, s.x + s.rx); x++) { const e = ((x - s.x) / s.rx) ** 2 + ((y - s.y) / s.ry) ** 2; if (e < 1) o.d[y * src.w + x] -= s.v * (1 - e); }
    return o;
  });
  const mask = image(src.w, src.h);
  for (let i = 0; i < src.w * src.h; i++) mask.d[i] = 255 - marks[i * 4 + 3];
  return { planes, drawn, mask };
}
const gray = r => { const v = r.int(35, 105); return `rgb(${v},${v},${v + 4})`; };
function render(shapes, src) { return new Resvg(`<svg xmlns="http://www.w3.org/2000/svg" width="${src.w}" height="${src.h}">${shapes.join('')}</svg>`, { font: { loadSystemFonts: false } }).render().pixels; }
