// node make.mjs --out DIR --count N --seed S [--engraver verovio|lilypond] [--hand 0.2] [--rich 1] [--sounds 1] [--rhythms 1] [--charts 1] [--under 1]: made pages for training.
import fs from 'node:fs';
import path from 'node:path';
import { Random } from './src/random.mjs';
import { makeBatch } from './src/batch.mjs';
import { grayPng, raster } from './src/draw.mjs';
import { pageTruth, toPixels, wordOutlines } from './src/page.mjs';

const opt = { out: 'out', count: '10', seed: '1', engraver: 'verovio', hand: '0.2', rich: '0', sounds: '0', rhythms: '0', charts: '0', under: '0', faces: 'Leipzig,Bravura,Leland,Gootville,Petaluma' };
for (let i = 2; i < process.argv.length; i += 2) { const k = process.argv[i].replace(/^--/, ''); if (!(k in opt)) throw new Error(`unknown option ${k}`); opt[k] = process.argv[i + 1]; }
fs.mkdirSync(opt.out, { recursive: true });
const write = (name, data) => { const f = path.join(opt.out, name); fs.writeFileSync(`${f}.part`, data); fs.renameSync(`${f}.part`, f); };
let made = 0, failed = 0; const why = new Map();
for (let seed = Number(opt.seed); made < Number(opt.count); seed++) {
  let pages;
  try { pages = await makeBatch(opt.engraver, seed, { handShare: Number(opt.hand), faces: opt.faces.split(','), rich: opt.rich === '1', sounds: opt.sounds === '1', rhythms: opt.rhythms === '1', charts: opt.charts === '1', under: opt.under === '1' }); }
  catch (e) { failed++; const k = e.message.replace(/\d+/g, 'N').slice(0, 80); why.set(k, (why.get(k) ?? 0) + 1); if (process.env.DEBUG) console.error(seed, e.stack.split('\n').slice(0, 3).join(' | ')); if (failed > 60 && failed > made * 5) throw e; continue; }
  for (const { page, meta, k, n } of pages) {
    const name = `${opt.engraver.slice(0, 3)}-${seed}-${n}`;
    let truth;
    try { truth = pageTruth(page, k, { ...meta, source: `${name}.png`, seed }); } catch (e) { failed++; const w = e.message.replace(/\d+/g, 'N').slice(0, 80); why.set(w, (why.get(w) ?? 0) + 1); if (process.env.DEBUG) console.error(name, e.message); continue; }
    write(`${name}.png`, await grayPng(await raster(toPixels(page.prims, k), truth.signs.width, truth.signs.height)));
    write(`${name}.json`, JSON.stringify(wordOutlines(truth.map)));
    write(`${name}.signs.json`, JSON.stringify(truth.signs));
    made++;
  }
}
console.log(`made ${made}, left out ${failed}`, Object.fromEntries(why));
