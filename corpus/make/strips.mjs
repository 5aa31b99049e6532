// node corpus/make/strips.mjs --from DIR --out DIR --seed N [--count N]: clean pages of DIR (PNG with truth) laid side by side, bound or taped together, and photographed or
// copied so that only part of a neighbour is in the picture. Every other one goes to OUT/a (to look at) and OUT/b (never looked at). The truth holds the whole pages only; three kinds:
// `strip` 3 to 30 % of a neighbour at the left, right or both edges; `cut-opening` one page whole and 35 to 88 % of the other; `whole-opening` both whole.
import fs from 'node:fs';
import path from 'node:path';
import { Random } from '../../extractor/training/pages/src/random.mjs';
import { sharp } from '../../extractor/training/pages/src/draw.mjs';
import { at, blur, image, inverse, sensor, smoothNoise } from './raster.mjs';

const opt = { from: '', out: '', seed: '1', count: '40' };
for (let i = 2; i < process.argv.length; i += 2) opt[process.argv[i].slice(2)] = process.argv[i + 1];
const names = fs.readdirSync(opt.from).filter(f => f.startsWith('clean-') && f.endsWith('.json')).sort().map(f => f.slice(0, -5));
const r2 = v => Math.round(v * 100) / 100;

async function load(name) {
  const map = JSON.parse(fs.readFileSync(path.join(opt.from, `${name}.json`)));
  const { data, info } = await sharp(path.join(opt.from, `${name}.png`)).greyscale().raw().toBuffer({ resolveWithObject: true });
  const img = image(info.width, info.height);
  for (let i = 0; i < img.d.length; i++) img.d[i] = data[i * info.channels];
  const xs = map.pages[0].systems.flatMap(s => s.outline.map(p => p[0]));
  return { map, img, left: Math.min(...xs), right: Math.max(...xs), space: map.pages[0].systems[0].staffSpace };
}
/** A book is engraved in one size: the pages whose staves are about as large for their paper as those of another. */
const sizes = Object.fromEntries(names.map(n => { const p = JSON.parse(fs.readFileSync(path.join(opt.from, `${n}.json`))).pages[0]; return [n, p.systems[0].staffSpace / p.height]; }));
const alike = name => names.filter(n => Math.abs(sizes[n] / sizes[name] - 1) < 0.12);
/** Pages in a row, all as high as the first of them: `shift` and `scale` carry a page's pixels onto the row. */
function row(pages, height) {
  let u = 0;
  for (const p of pages) { p.scale = height / p.img.h; p.shift = u; p.width = p.img.w * p.scale; p.soft = p.scale < 0.95 ? blur(p.img, 0.35 / p.scale) : p.img; u += p.width; }
  return u;
}
const turn = (deg, cx, cy, s) => { const a = (deg * Math.PI) / 180, c = Math.cos(a) * s, d = Math.sin(a) * s; return (x, y) => [cx + (x - cx) * c - (y - cy) * d, cy + (x - cx) * d + (y - cy) * c]; };

/** The bend of bound paper and the camera: sheet to picture. Along a bound edge the page rises and its columns crowd together. */
function camera(r, whole, h, page, bound, flat) {
  const A = flat ? r.range(0, 0.012) : r.range(0, 0.075), lam = r.range(0.06, 0.22) * page.width, D = r.range(1.5, 2.6), squeeze = flat ? 0 : r.range(0, 0.3), cx = page.shift + page.width * r.range(0.3, 0.7), cy = h * r.range(0.4, 0.6);
  const tilt = flat ? 0.4 : 1.6, W = page.width, px = flat ? 0 : r.gauss(0.035) / W, py = flat ? 0 : r.gauss(0.045) / h, spin = turn(r.gauss(tilt), cx, cy, r.range(0.72, 0.95)), shear = flat ? 0 : r.gauss(0.006);
  return (x, y) => {
    let rise = 0, X = x;
    for (const g of bound) { const e = Math.exp(-Math.abs(x - g) / lam); rise += e; X += Math.sign(g - x) * squeeze * lam * A * 6 * (1 - e); }
    const k = D / (D + A * rise), [u, v] = spin(cx + (X - cx) * k, cy + (y - cy) * k), q = 1 + px * (u - cx) + py * (v - cy);
    return [cx + (u - cx + shear * (v - cy)) / q, cy + (v - cy) / q];
  };
}
/** What is in the picture, in sheet coordinates: left, right, top, bottom; beyond the paper lies the table. */
function frame(r, kind, pages, h, whole) {
  const p = pages.find(q => q.whole), edge = () => (r.chance(0.55) ? r.range(0.01, 0.07) * p.width : -r.range(0, 0.5));
  const side = { l: edge(), r: edge(), t: r.chance(0.55) ? r.range(0.01, 0.06) * h : -r.range(0, 0.012) * h, b: r.chance(0.55) ? r.range(0.01, 0.06) * h : -r.range(0, 0.012) * h };
  const first = pages[0], last = pages.at(-1), share = () => (kind === 'strip' ? r.range(0.03, 0.3) : r.range(0.35, 0.88));
  // a cut in the margin is none: an edge without table leaves a part of the outer margin of a whole page
  const f = { shares: [] };
  if (first.whole) f.l = side.l > 0 ? -side.l : -side.l * first.left * first.scale; else { const s = share(); f.shares.push(['left', r2(s)]); f.l = first.width * (1 - s); }
  if (last.whole) f.r = side.r > 0 ? whole + side.r : whole + side.r * (last.img.w - last.right) * last.scale; else { const s = share(); f.shares.push(['right', r2(s)]); f.r = last.shift + last.width * s; }
  f.t = -side.t; f.b = h + side.b;
  return f;
}
function carry(page, F, w, h, index, file) {
  const map = structuredClone(page.map), pt = ([x, y]) => F(x * page.scale + page.shift, y * page.scale).map(r2), P = map.pages[0], add = (index - 1) * 1000;
  Object.assign(P, { index, source: file, width: w, height: h });
  for (const s of P.systems) {
    const tall = (s.outline[3][1] - s.outline[0][1]) / s.staffSpace;
    s.midline = (s.midline ?? []).map(pt); s.outline = s.outline.map(pt);
    const [a, b, c, d] = s.outline; s.staffSpace = r2((Math.hypot(d[0] - a[0], d[1] - a[1]) + Math.hypot(c[0] - b[0], c[1] - b[1])) / (2 * tall));
  }
  const id = s => `b${Number(s.slice(1)) + add}`;
  for (const b of map.bars) {
    b.id = id(b.id); b.page = index; b.outline = b.outline.map(pt);
    for (const w of b.words ?? []) { const [x0, y0, x1, y1] = w.box, q = [[x0, y0], [x1, y0], [x1, y1], [x0, y1]].map(pt); w.box = [Math.min(...q.map(v => v[0])), Math.min(...q.map(v => v[1])), Math.max(...q.map(v => v[0])), Math.max(...q.map(v => v[1]))]; delete w.outline; }
  }
  for (const n of map.numbers) { n.firstBar = id(n.firstBar); n.lastBar = id(n.lastBar); }
  return map;
}
async function make(kind, seed, dir) {
  const r = new Random(seed ^ 0x2545f491), first = r.pick(names), some = () => load(r.pick(alike(first))), main = await load(first), h = main.img.h, pages = [main];
  main.whole = true;
  if (kind === 'strip') { const where = r.weighted({ left: 4, right: 4, both: 1 }); if (where !== 'right') pages.unshift(await some()); if (where !== 'left') pages.push(await some()); }
  else if (kind === 'cut-opening') { if (r.chance(0.75)) pages.push(await some()); else pages.unshift(await some()); }
  else { pages.push(await some()); pages[1].whole = true; }
  const whole = row(pages, h), flat = r.chance(0.3), edges = pages.slice(1).map(p => ({ u: p.shift, bound: r.chance(0.8) }));
  const F0 = camera(r, whole, h, main, edges.filter(e => e.bound).map(e => e.u), flat), f = frame(r, kind, pages, h, whole);
  const xL = F0(f.l, h / 2)[0], xR = F0(f.r, h / 2)[0], across = [f.l, (f.l + f.r) / 2, f.r], ys = across.map(x => F0(x, f.t)[1]), ye = across.map(x => F0(x, f.b)[1]), low = v => (v < 0 ? Math.min(...ys) : Math.max(...ys));
  // every staff of a whole page is in the picture, however it leans
  let [l, t, rt, b] = [xL, low(f.t), xR, f.b > h ? Math.max(...ye) : Math.min(...ye)];
  for (const p of pages.filter(q => q.whole)) for (const s of p.map.pages[0].systems) for (const [x, y] of s.outline) { const [u, v] = F0(x * p.scale + p.shift, y * p.scale), m = 2.5 * s.staffSpace * p.scale * 0.8; t = Math.min(t, v - 2 * m); b = Math.max(b, v + 2 * m); if (p === pages[0]) l = Math.min(l, u - m); if (p === pages.at(-1)) rt = Math.max(rt, u + m); }
  const F = (x, y) => { const [u, v] = F0(x, y); return [u - l, v - t]; }, W = Math.round(rt - l), H = Math.round(b - t);
  const inv = inverse(F, W, H, (X, Y) => [X + l, Y + t]), img = draw(r, { W, H, inv, pages, edges, whole, h, flat, space: main.space }), file = `${kind}-${seed}.jpg`;
  const tint = [1, r.range(0.94, 1), r.range(0.8, 0.98)], px = Buffer.alloc(W * H * 3);
  for (let i = 0; i < W * H; i++) for (let c = 0; c < 3; c++) px[3 * i + c] = Math.max(0, Math.min(255, img.d[i] * tint[c]));
  fs.writeFileSync(path.join(dir, file), await sharp(px, { raw: { width: W, height: H, channels: 3 } }).jpeg({ quality: r.int(66, 84), mozjpeg: true }).toBuffer());
  const maps = pages.filter(p => p.whole).map((p, i) => carry(p, F, W, H, i + 1, file)), [one] = maps;
  const map = { ...one, pages: maps.flatMap(m => m.pages), numbers: maps.flatMap(m => m.numbers), bars: maps.flatMap(m => m.bars), corpus: { kind, seed, engraver: one.corpus.engraver, face: one.corpus.face, flat, facing: Object.fromEntries(f.shares) } };
  fs.writeFileSync(path.join(dir, `${kind}-${seed}.json`), `${JSON.stringify(map)}\n`);
  return file;
}
function draw(r, { W, H, inv, pages, edges, whole, h, flat, space }) {
  const soft = r.range(0.03, flat ? 0.05 : 0.09) * space; for (const p of pages) p.soft = blur(p.soft, soft / p.scale);
  const img = image(W, H), g = sensor(r), dark = r.chance(0.7) ? r.range(15, 90) : r.range(120, 215), grainy = r.pick([6, 16, 50]), wood = smoothNoise(r, W * 4, H, 24), coarse = smoothNoise(r, W, H, 260), light = smoothNoise(r, W, H, W * 0.7);
  const gutter = r.range(0.05, 0.55), gw = r.range(0.006, 0.045) * pages[0].width, fold = r.range(0.45, 0.95), paper = r.range(190, 248), ink = r.range(15, 70), noise = flat ? r.range(0.5, 2) : r.range(1, 4.5), fall = flat ? 0 : r.range(0, 0.4), la = r.range(0, 6.28), gap = r.chance(0.3) ? r.range(1, 6) : 0;
  for (let y = 0; y < H; y++) for (let x = 0; x < W; x++) {
    const [u, v] = inv(x + 0.5, y + 0.5);
    let c = dark + grainy * wood(x * 4, y) + 14 * coarse(x, y);
    if (v >= 0 && v <= h && u >= 0 && u <= whole) {
      let p = pages[0]; for (const q of pages) if (u >= q.shift) p = q;
      let c0 = ink + (at(p.soft, (u - p.shift) / p.scale, v / p.scale) * (paper - ink)) / 255;
      for (const e of edges) {
        const d = Math.abs(u - e.u);
        if (e.bound) { c0 *= 1 - gutter * Math.exp(-d / gw); if (d < 1.3) c0 *= fold; } else if (d < gap) c0 = c; else if (d < gap + 1.2) c0 *= fold;
      }
      c = c0;
    }
    const L = 1 - fall * (0.5 + 0.8 * ((Math.cos(la) * (x - W / 2)) / W + (Math.sin(la) * (y - H / 2)) / H)) + (flat ? 0 : 0.06 * light(x, y));
    img.d[y * W + x] = c * L + noise * g();
  }
  return img;
}
const halves = ['a', 'b'].map(s => path.join(opt.out, s)), KINDS = ['strip', 'strip', 'strip', 'cut-opening', 'cut-opening', 'whole-opening'];
for (const d of halves) fs.mkdirSync(d, { recursive: true });
for (let i = 0; i < Number(opt.count); i++) console.log(await make(KINDS[(i >> 1) % KINDS.length], Number(opt.seed) + i, halves[i % 2]));
