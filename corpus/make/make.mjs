// node corpus/make/make.mjs [--only KIND] [--seeds N,N] [--out DIR]: makes corpus/pages and corpus/manifest.json again, the same pages from the same seeds.
// node corpus/make/make.mjs --search KIND: looks for seeds and writes plan-KIND.json (only when the corpus is to be replaced).
// With `--only numbers`: pages with bare marks, and bar numbers where they can be taken for marks.
// With `--masks yes`: beside each pencilled page the ink that was written on it, as NAME.hand.png, for fitting.
// node corpus/make/make.mjs --fresh BASE --out DIR [--only KIND]: twenty pages of each kind from seeds never used, every other one to DIR/a (to look at) and DIR/b (never looked at).
import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { Random } from '../../extractor/training/pages/src/random.mjs';
import { raster, sharp } from '../../extractor/training/pages/src/draw.mjs';
import { toPixels, wordOutlines } from '../../extractor/training/pages/src/page.mjs';
import { bookPage, pageTruth } from './book.mjs';
import { desk, photo, scan } from './damage.mjs';
import { keepsLines } from './lines.mjs';
import { manifest } from './manifest.mjs';
import { pencil } from './pencil.mjs';
import { at, inverse } from './raster.mjs';

const here = path.dirname(fileURLToPath(import.meta.url)), opt = { out: path.join(here, '..', 'pages'), only: '', search: '', fresh: '', charts: '', perc: '', rare: '', engraver: '', seeds: '', masks: '' };
for (let i = 2; i < process.argv.length; i += 2) opt[process.argv[i].slice(2)] = process.argv[i + 1];
fs.mkdirSync(opt.out, { recursive: true });

const PERC = ['line1', 'line2', 'drums', 'book'], RARE = ['under', 'clefs', 'divisi'];
/** Places of a staff of five that have a line; a page that mixes them is judged by the one all have. */
const DRAWN = { line1: [2], line2: [1, 3], book: [2] };
const r2 = v => Math.round(v * 100) / 100;
/** The truth carried through F: outlines corner by corner, word boxes as the box of their corners, middle lines point by point. */
function carry(map, signs, F, width, height) {
  const pt = ([x, y]) => F(x, y).map(r2);
  const p = map.pages[0]; p.width = width; p.height = height;
  for (const m of p.byHand ?? []) m.outline = m.outline.map(pt);
  for (const s of p.systems) {
    const st = signs.staves.find(t => t.system === s.index), [a, b] = [st.midline[0], st.midline.at(-1)], n = 24;
    s.midline = Array.from({ length: n + 1 }, (_, i) => pt([a[0] + ((b[0] - a[0]) * i) / n, a[1] + ((b[1] - a[1]) * i) / n]));
    const spaces = (s.outline[3][1] - s.outline[0][1]) / st.staffSpace; // 4, more with two staves
    s.outline = s.outline.map(pt);
    const [tl, tr, br, bl] = s.outline; s.staffSpace = r2((Math.hypot(bl[0] - tl[0], bl[1] - tl[1]) + Math.hypot(br[0] - tr[0], br[1] - tr[1])) / (Math.abs(spaces - 4) < 0.05 ? 8 : 2 * spaces));
  }
  for (const b of map.bars) {
    b.outline = b.outline.map(pt);
    for (const w of b.words ?? []) { const [x0, y0, x1, y1] = w.box, q = [pt([x0, y0]), pt([x1, y0]), pt([x1, y1]), pt([x0, y1])]; w.box = [Math.min(...q.map(v => v[0])), Math.min(...q.map(v => v[1])), Math.max(...q.map(v => v[0])), Math.max(...q.map(v => v[1]))]; }
  }
}
/** The ink that was written on a page, as it lies in the picture of the page. */
async function written(mask, F, { w, h }, file) {
  const inv = inverse(F, w, h, (x, y) => [x, y]), px = Buffer.alloc(w * h);
  for (let y = 0; y < h; y++) for (let x = 0; x < w; x++) px[y * w + x] = at(mask, ...inv(x + 0.5, y + 0.5));
  await sharp(px, { raw: { width: w, height: h, channels: 1 } }).png().toFile(file);
}
/** A scan with its staff lines still there: from the seed, else from the same page's next draw. */
function copied(src, r, k, seed, keeps) {
  for (let n = 0; n < 20; n++) { const s = scan(src, n ? new Random((seed + n * 0x9e3779b9) ^ 0x5bd1e995) : r, k, keeps); if (s) return s; console.log(`${seed}: staff lines lost, made again`); }
  throw new Error('every copy loses its staff lines');
}
const gray = img => ({ w: img.width, h: img.height, d: Float32Array.from(img.data) });
/** An opening photographed at once: two pages side by side, bound in the middle; the truth has two pages in one picture. */
async function makeOpening({ kind, engraver, seed, table }) {
  const r = new Random(seed ^ 0x5bd1e995), one = await bookPage(engraver, seed), name = `${kind}-${engraver}-${seed}`, file = `${name}.jpg`;
  const two = await bookPage(engraver, seed + 500, { firstId: 1001 }), W = Math.max(one.page.W, two.page.W), H = Math.max(one.page.H, two.page.H), k = r.range(1400, 1650) / W;
  for (const b of [one, two]) { b.page.W = W; b.page.H = H; Object.assign(b, pageTruth(b.page, k, { ...b.meta, source: file })); b.img = await raster(toPixels(b.page.prims, k), b.signs.width, b.signs.height); }
  const w = one.img.width, src = { w: 2 * w, h: one.img.height, d: new Float32Array(2 * w * one.img.height) };
  for (let y = 0; y < src.h; y++) for (let x = 0; x < w; x++) { src.d[y * src.w + x] = one.img.data[y * w + x]; src.d[y * src.w + w + x] = two.img.data[y * w + x]; }
  const { img, F, tint } = photo(src, r, k, { spread: true, table });
  carry(one.map, one.signs, F, img.w, img.h); carry(two.map, two.signs, (x, y) => F(x + w, y), img.w, img.h);
  two.map.pages[0].index = 2; for (const b of two.map.bars) b.page = 2;
  const map = { ...one.map, pages: [one.map.pages[0], two.map.pages[0]], numbers: [...one.map.numbers, ...two.map.numbers], bars: [...one.map.bars, ...two.map.bars], corpus: { engraver, face: one.meta.face, kind, seed, table } };
  const px = Buffer.alloc(img.w * img.h * 3);
  for (let i = 0; i < img.w * img.h; i++) for (let c = 0; c < 3; c++) px[3 * i + c] = img.d[i] * tint[c];
  fs.writeFileSync(path.join(opt.out, file), await sharp(px, { raw: { width: img.w, height: img.h, channels: 3 } }).jpeg({ quality: r.int(66, 80), mozjpeg: true }).toBuffer());
  fs.writeFileSync(path.join(opt.out, `${name}.json`), JSON.stringify(wordOutlines(map)) + '\n');
  return { file, truth: `${name}.json` };
}
async function makeOne(p) {
  const { kind: family, engraver, seed, turned } = p, kind = p.as ?? (family === 'numbers' ? (seed % 3 ? 'clean' : 'scan') : family);
  if (family === 'opening') return makeOpening(p);
  const { page, meta } = await bookPage(engraver, seed, { grand: family === 'grand', numbered: family === 'numbers', charts: family === 'charts', perc: PERC.includes(family) ? family : '', rare: RARE.includes(family) ? family : '' }), r = new Random(seed ^ 0x5bd1e995), wide = r.range(1750, 2300), k = wide / page.W;
  const name = `${family}-${engraver}-${seed}`, ext = kind === 'clean' ? 'png' : 'jpg';
  const { signs, map } = pageTruth(page, k, { ...meta, source: `${name}.${ext}` });
  const clean = await raster(toPixels(page.prims, k), signs.width, signs.height), src = gray(clean);
  let img, F = (x, y) => [x, y], tint = null, planes = null, mode = kind;
  if (kind === 'scan') ({ img, F, tint, mode } = copied(src, r, k, seed, (i, G) => { const m = structuredClone(map); carry(m, signs, G, i.w, i.h); return keepsLines(i, m.pages[0].systems, DRAWN[family]); }));
  else if (kind === 'photo') ({ img, F, tint } = photo(src, r, k));
  else if (kind === 'pencil') {
    const hand = pencil(src, map, k, r);
    ({ planes, F } = desk(src, r, k, hand.planes));
    // Pages of the corpus stay as they are; pages made anew say what was written on them.
    if (opt.fresh || opt.charts || opt.perc || opt.rare || opt.masks) map.pages[0].byHand = hand.drawn;
    if (opt.masks) await written(hand.mask, F, planes[0], path.join(opt.out, `${name}.hand.png`));
  }
  else img = src;
  let W = (img ?? planes[0]).w, H = (img ?? planes[0]).h, file = `${name}.${ext}`, s;
  if (kind === 'clean' || mode === 'bilevel') {
    file = `${name}.png`;
    s = sharp(Buffer.from(Uint8Array.from(img.d)), { raw: { width: W, height: H, channels: 1 } }).png(mode === 'bilevel' ? { palette: true, colours: 2, compressionLevel: 9 } : { palette: true, colours: 16, compressionLevel: 9 });
  } else {
    const colour = planes || tint, px = Buffer.alloc(W * H * (colour ? 3 : 1));
    if (planes) for (let i = 0; i < W * H; i++) for (let c = 0; c < 3; c++) px[3 * i + c] = planes[c].d[i];
    else if (tint) for (let i = 0; i < W * H; i++) for (let c = 0; c < 3; c++) px[3 * i + c] = img.d[i] * tint[c];
    else for (let i = 0; i < W * H; i++) px[i] = img.d[i];
    s = sharp(px, { raw: { width: W, height: H, channels: colour ? 3 : 1 } });
    if (turned) { // the camera lay on its side: pixels turned; with `exif` the file says so, without it nobody does
      const turnedPx = await s.rotate(turned.angle).raw().toBuffer({ resolveWithObject: true });
      s = sharp(turnedPx.data, { raw: { width: turnedPx.info.width, height: turnedPx.info.height, channels: turnedPx.info.channels } });
      if (turned.exif) s = s.withMetadata({ orientation: turned.angle === 90 ? 8 : 6 });
      else { const G = F, w = W, h = H; F = turned.angle === 90 ? (x, y) => { const [u, v] = G(x, y); return [h - v, u]; } : (x, y) => { const [u, v] = G(x, y); return [v, w - u]; }; [W, H] = [h, w]; }
    }
    s = s.jpeg({ quality: kind === 'photo' ? r.int(66, 80) : r.int(70, 82), mozjpeg: true });
  }
  carry(map, signs, F, W, H);
  map.pages[0].source = file;
  map.corpus = { engraver, face: meta.face, kind: family, ...(p.as ? { as: p.as } : {}), seed, ...(turned ? { turned: turned.exif ? 'exif' : 'pixels' } : {}) };
  fs.writeFileSync(path.join(opt.out, file), await s.toBuffer());
  fs.writeFileSync(path.join(opt.out, `${name}.json`), JSON.stringify(wordOutlines(map)) + '\n');
  return { file, truth: `${name}.json` };
}

/** Draws seeds from `base` on until the engravers have their shares; a seed is kept when the engraver drew exactly what the music says. */
async function draw(kind, base, share, folder = () => {}) {
  const found = [];
  let seed = base;
  for (const [engraver, want] of Object.entries(share)) for (let n = 0; n < want; seed++) {
    const turned = kind === 'photo' && n < 2 && engraver !== 'lilypond' ? { angle: seed % 2 ? 90 : 270, exif: n === 0 || engraver === 'abcm2ps' } : undefined, p = { kind, engraver, seed, ...(turned ? { turned } : {}) };
    folder(found.length);
    try { const e = await makeOne(p); found.push(p); n++; console.log(`${found.length} ${e.file}`); } catch (e) { console.log(`${engraver} ${seed}: ${e.message.slice(0, 90)}`); }
  }
  return found;
}
const KINDS = ['clean', 'scan', 'photo', 'pencil', 'numbers'], AS = ['clean', 'scan', 'clean', 'photo', 'clean', 'pencil'];
if (opt.perc || opt.rare) { // pages of percussion, or of what is rare, every other one to DIR/a and DIR/b
  const halves = ['a', 'b'].map(h => path.join(opt.out, h));
  for (const h of halves) fs.mkdirSync(h, { recursive: true });
  let seed = Number(opt.perc || opt.rare), n = 0;
  for (const kind of opt.only ? [opt.only] : opt.perc ? PERC : RARE) for (const [engraver, want] of Object.entries(opt.perc || kind === 'under' ? { verovio: 4, lilypond: 4, musescore: 6 } : { verovio: 12 })) if (!opt.engraver || engraver === opt.engraver) for (let k = 0; k < want; seed++) {
    opt.out = halves[k % 2];
    try { const e = await makeOne({ kind, as: AS[(k >> 1) % AS.length], engraver, seed }); k++; console.log(`${++n} ${e.file}`); } catch (e) { console.log(`${engraver} ${seed}: ${e.message.slice(0, 90)}`); }
  }
} else if (opt.charts) { // pages of half charts, every other one to DIR/a and DIR/b
  const halves = ['a', 'b'].map(h => path.join(opt.out, h)), share = { musescore: 12, lilypond: 6, verovio: 6 };
  for (const h of halves) fs.mkdirSync(h, { recursive: true });
  let seed = Number(opt.charts), n = 0;
  for (const [engraver, want] of Object.entries(share)) if (!opt.engraver || engraver === opt.engraver) for (let k = 0; k < want; seed++) {
    opt.out = halves[k % 2];
    try { const e = await makeOne({ kind: 'charts', as: AS[(k >> 1) % AS.length], engraver, seed }); k++; console.log(`${++n} ${e.file}`); } catch (e) { console.log(`${engraver} ${seed}: ${e.message.slice(0, 90)}`); }
  }
} else if (opt.fresh) {
  const halves = ['a', 'b'].map(h => path.join(opt.out, h));
  for (const h of halves) fs.mkdirSync(h, { recursive: true });
  for (const kind of KINDS.filter(k => (opt.only ? k === opt.only : k !== 'numbers'))) await draw(kind, Number(opt.fresh) + 10000 * KINDS.indexOf(kind), kind === 'numbers' ? { verovio: 24, abcm2ps: 12, musescore: 4 } : { musescore: 8, abcm2ps: 6, lilypond: 2, verovio: 4 }, n => { opt.out = halves[n % 2]; });
} else if (opt.search) { // choose seeds anew: a seed is kept when the engraver drew exactly what the music says
  const kind = opt.search, found = await draw(kind, 910000 + 10000 * KINDS.indexOf(kind), { musescore: 14, abcm2ps: 10, lilypond: 4, verovio: 6 });
  fs.writeFileSync(path.join(here, `plan-${kind}.json`), `[\n${found.map(p => JSON.stringify(p)).join(',\n')}\n]\n`);
} else {
  const plan = ['clean', 'scan', 'photo', 'pencil', 'opening', 'grand', 'charts', 'line1'].filter(k => !opt.only || k === opt.only).flatMap(k => JSON.parse(fs.readFileSync(path.join(here, `plan-${k}.json`)))), entries = [];
  const seeds = new Set(opt.seeds.split(',').filter(Boolean).map(Number));
  for (const p of plan) if ((!opt.only || p.kind === opt.only) && (!seeds.size || seeds.has(p.seed))) { const e = await makeOne(p); entries.push({ ...p, ...e }); console.log(`${entries.length} ${e.file}`); }
  if (!opt.only) manifest();
}
