// node corpus/make/lines.mjs [DIR]: how much of every staff line a page still shows, from the outlines of its truth.
import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { sharp } from '../../extractor/training/pages/src/draw.mjs';

/** A system whose five lines keep less than this share of their ink: nobody could read the copy, so it would have been made again. */
const LEAST = 0.6;
/** A pixel is ink when darker than the paper around it by this many of 255 levels. */
const DARKER = 20;

/** @param img {w, h, d} gray, 0 ink; @param systems [{outline, midline}] in its pixels; @returns for each system the share of each of its (first staff's) five lines that is ink. */
export function lineInk(img, systems) {
  const px = (x, y) => { const i = Math.floor(x), j = Math.floor(y); return i < 0 || j < 0 || i >= img.w || j >= img.h ? 255 : img.d[j * img.w + i]; };
  return systems.map(s => {
    const [tl, tr, br, bl] = s.outline, height = (Math.hypot(bl[0] - tl[0], bl[1] - tl[1]) + Math.hypot(br[0] - tr[0], br[1] - tr[1])) / 2, share = Math.min(1, (4 * s.staffSpace) / height), n = Math.ceil(Math.hypot(tr[0] - tl[0], tr[1] - tl[1])), space = s.staffSpace, ok = [0, 0, 0, 0, 0];
    for (let i = 1; i < n; i++) {
      const t = i / n, down = [bl[0] - tl[0] + (br[0] - bl[0] - tr[0] + tl[0]) * t, bl[1] - tl[1] + (br[1] - bl[1] - tr[1] + tl[1]) * t];
      const k = t * (s.midline.length - 1), a = Math.min(s.midline.length - 2, Math.floor(k)), f = k - a, mid = [0, 1].map(c => s.midline[a][c] * (1 - f) + s.midline[a + 1][c] * f);
      for (let l = 0; l < 5; l++) {
        const x = mid[0] + down[0] * share * (l / 4 - 0.5), y = mid[1] + down[1] * share * (l / 4 - 0.5), around = [];
        let dark = 255;
        for (let o = -0.45 * space; o <= 0.45 * space; o++) { const v = px(x, y + o); around.push(v); if (Math.abs(o) <= Math.max(2, 0.12 * space)) dark = Math.min(dark, v); }
        around.sort((p, q) => p - q);
        if (dark < around[Math.floor(around.length * 0.7)] - DARKER || around[Math.floor(around.length * 0.7)] < 100) ok[l]++;
      }
    }
    return ok.map(v => v / (n - 1));
  });
}
/** @param drawn which of the five places have a line */
const worst = (shares, drawn) => Math.min(...shares.map(s => drawn.reduce((a, l) => a + s[l], 0) / drawn.length));
const ALL = [0, 1, 2, 3, 4];
export const keepsLines = (img, systems, drawn = ALL) => worst(lineInk(img, systems), drawn) >= LEAST;

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const dir = process.argv[2] ?? path.join(path.dirname(fileURLToPath(import.meta.url)), '..', 'pages');
  for (const f of fs.readdirSync(dir).filter(f => f.endsWith('.json')).sort()) {
    const map = JSON.parse(fs.readFileSync(path.join(dir, f))), p = map.pages[0];
    if (map.corpus.kind !== 'scan') continue;
    const { data, info } = await sharp(path.join(dir, p.source)).greyscale().raw().toBuffer({ resolveWithObject: true });
    const img = { w: info.width, h: info.height, d: info.channels === 1 ? data : data.filter((_, i) => i % info.channels === 0) };
    const shares = lineInk(img, p.systems), m = worst(shares, ALL);
    console.log(`${p.source} ${m.toFixed(2)} ${m < LEAST ? 'refused' : ''} palest line ${Math.min(...shares.flat()).toFixed(2)}`);
  }
}
