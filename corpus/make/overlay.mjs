// node overlay.mjs PAGE.json OUT.png [scale]: bar outlines, barline types, counts, marks and middle lines drawn over the page.
import fs from 'node:fs';
import path from 'node:path';
import { sharp } from '../../extractor/training/pages/src/draw.mjs';

const [file, out, scale = '1'] = process.argv.slice(2), map = JSON.parse(fs.readFileSync(file)), p = map.pages[0];
let svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${p.width}" height="${p.height}" font-family="DejaVu Sans" font-size="22">`;
for (const s of p.systems) svg += `<polygon points="${s.outline.join(' ')}" fill="none" stroke="#0a0" stroke-width="1.5"/>` + (s.midline ? `<polyline points="${s.midline.join(' ')}" fill="none" stroke="#0c0"/>` : '');
for (const b of map.bars) {
  const [tl, tr, br, bl] = b.outline, t = [b.number + (b.count > 1 ? `×${b.count}` : ''), b.content === 'music' ? '' : b.content, b.meter.printed ? `${b.meter.beats}/${b.meter.unit}` : '', b.rehearsal ? `[${b.rehearsal.text}]` : '', b.ending ? `e${b.ending}` : '', b.signs ?? ''].filter(v => v !== '' && v.length !== 0).join(' ');
  svg += `<line x1="${tr[0]}" y1="${tr[1]}" x2="${br[0]}" y2="${br[1]}" stroke="#e00" stroke-width="2"/><line x1="${tl[0]}" y1="${tl[1]}" x2="${bl[0]}" y2="${bl[1]}" stroke="#00e" stroke-width="1"/><text x="${bl[0]}" y="${bl[1] + 22}" fill="#00c" font-size="18">${t}</text>`;
  if (b.endBarline !== 'single') svg += `<text x="${br[0] - 30}" y="${tr[1] - 4}" fill="#e00" font-size="18">${b.endBarline}</text>`;
  for (const w of b.words ?? []) svg += `<polygon points="${w.box.join(' ')}" fill="none" stroke="#a80"/>`;
}
const img = await sharp(await sharp(path.join(path.dirname(file), p.source)).rotate().toColourspace('srgb').png().toBuffer()).composite([{ input: Buffer.from(svg + '</svg>') }]).png().toBuffer();
await sharp(img).resize({ width: Math.round(p.width * Number(scale)) }).png().toFile(out);
