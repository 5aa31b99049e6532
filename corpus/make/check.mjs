// node corpus/make/check.mjs [DIR]: do the outlines lie on the ink? For every single barline the darkest column near the truth, in staff spaces.
import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { sharp } from '../../extractor/training/pages/src/draw.mjs';

const dir = process.argv[2] ?? path.join(path.dirname(fileURLToPath(import.meta.url)), '..', 'pages'), by = {};
for (const f of fs.readdirSync(dir).filter(f => f.endsWith('.json'))) {
  const map = JSON.parse(fs.readFileSync(path.join(dir, f))), p = map.pages[0];
  const { data, info } = await sharp(path.join(dir, p.source)).rotate().greyscale().raw().toBuffer({ resolveWithObject: true });
  if (info.width !== p.width || info.height !== p.height) throw new Error(`${f}: ${info.width}x${info.height} is not ${p.width}x${p.height}`);
  const px = (x, y) => (x < 0 || y < 0 || x >= info.width || y >= info.height ? 255 : data[(Math.floor(y) * info.width + Math.floor(x)) * info.channels]);
  const k = map.corpus.kind, t = (by[k] ??= { pages: 0, bars: 0, off: [], far: [] }); t.pages++;
  for (const b of map.bars) {
    if (b.endBarline !== 'single') continue;
    const s = p.systems[b.system - 1].staffSpace, [, tr, br] = b.outline, ux = (p.systems[b.system - 1].outline[1][0] - p.systems[b.system - 1].outline[0][0]), uy = (p.systems[b.system - 1].outline[1][1] - p.systems[b.system - 1].outline[0][1]), L = Math.hypot(ux, uy);
    let best = 0, low = Infinity;
    for (let o = -0.8; o <= 0.8001; o += 0.05) { let v = 0; for (let i = 0; i <= 40; i++) { const q = 0.06 + (0.88 * i) / 40; v += px(tr[0] + (br[0] - tr[0]) * q + (ux / L) * o * s, tr[1] + (br[1] - tr[1]) * q + (uy / L) * o * s); } v += Math.abs(o) * 40; if (v < low) { low = v; best = o; } }
    t.bars++; t.off.push(Math.abs(best)); if (Math.abs(best) > 0.3) t.far.push(`${map.corpus.engraver}-${map.corpus.seed} bar ${b.number} ${best.toFixed(2)}`);
  }
}
for (const [k, t] of Object.entries(by)) { t.off.sort((a, b) => a - b); console.log(k, `${t.pages} pages, ${t.bars} single barlines, median off ${t.off[t.off.length >> 1].toFixed(2)}, 99 % within ${t.off[Math.floor(t.off.length * 0.99)].toFixed(2)}, beyond 0.3: ${t.far.length}`, [...new Set(t.far.map(f => f.split(' ')[0]))].map(p => `${p} (${t.far.filter(f => f.startsWith(p)).length})`).join(', ')); }
