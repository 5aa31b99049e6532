// node overlay.mjs PAGE.signs.json OUT.png [scale]: the boxes of the truth drawn over the page, to look at.
import fs from 'node:fs';
import path from 'node:path';
import sharp from 'sharp';

const COLOUR = { barline: '#e00', count: '#06f', meter: '#090', rehearsal: '#c0c', 'bar-number': '#f80', ending: '#088', word: '#aa0', heading: '#800', rest: '#0aa', 'multi-rest': '#40c', 'block-rest': '#a0f', 'bar-repeat': '#0c4', 'bar-repeat-2': '#084' };
const [file, out, scale = '1'] = process.argv.slice(2), s = Number(scale);
const t = JSON.parse(fs.readFileSync(file));
const map = JSON.parse(fs.readFileSync(file.replace('.signs.json', '.json')));
let svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${t.width}" height="${t.height}" font-family="DejaVu Sans" font-size="13">`;
for (const st of t.staves) {
  svg += `<polyline points="${st.midline.map(p => p.join(',')).join(' ')}" fill="none" stroke="#0d0" stroke-width="1"/>`;
  for (const g of st.signs) {
    const [a, b, c, d] = g.box, k = COLOUR[g.kind] ?? '#888';
    svg += `<rect x="${a}" y="${b}" width="${c - a}" height="${d - b}" fill="${k}" fill-opacity=".12" stroke="${k}"/>`;
    const label = g.kind === 'barline' ? { single: '', double: 'd', final: 'F', 'repeat-start': 'rs', 'repeat-end': 're', 'repeat-both': 'rb', dashed: 'da' }[g.type] : (g.text ?? (g.small ? 's' : g.kind)) + (g.tuplet ? 't' : '') + (g.courtesy ? ' (c)' : '') + (g.enclosure ? ` ${g.enclosure}` : '');
    svg += `<text x="${a}" y="${b - 2}" fill="${k}">${label.replace(/&/g, '&amp;').replace(/</g, '&lt;')}</text>`;
  }
}
for (const b of map.bars) { const [p] = b.outline; svg += `<text x="${p[0] + 2}" y="${b.outline[3][1] + 12}" fill="#00a" font-size="11">${b.number}${b.count > 1 ? `×${b.count}` : ''}${b.ending ? ` e${b.ending}` : ''}</text>`; }
svg += '</svg>';
const img = await sharp(path.join(path.dirname(file), t.source)).toColourspace('srgb').composite([{ input: Buffer.from(svg) }]).png().toBuffer();
await sharp(img).resize({ width: Math.round(t.width * s) }).png().toFile(out);
