// Display list in pixels -> 8-bit gray PNG.
import { Resvg } from '@resvg/resvg-js';
import sharp from 'sharp';
import { pathText } from './geometry.mjs';

export function toSvg(prims, w, h) {
  const out = [`<svg xmlns="http://www.w3.org/2000/svg" width="${w}" height="${h}">`];
  for (const p of prims) {
    const f = p.fill ? (p.gray !== undefined ? `rgb(${p.gray},${p.gray},${p.gray})` : '#000') : 'none';
    out.push(`<path d="${pathText(p.path)}" fill="${f}"${p.stroke ? ` stroke="#000" stroke-width="${p.stroke.toFixed(2)}"${p.dash ? ` stroke-dasharray="${p.dash.map(v => v.toFixed(1)).join(' ')}"` : ''}${p.cap ? ` stroke-linecap="${p.cap}"` : ''} stroke-linejoin="${p.join ?? 'miter'}"` : ''}/>`);
  }
  out.push('</svg>');
  return out.join('\n');
}
/** @returns {data: Buffer gray, width, height} */
export async function raster(prims, w, h) {
  const img = new Resvg(toSvg(prims, w, h), { background: '#fff', font: { loadSystemFonts: false } }).render();
  const px = img.pixels, gray = Buffer.alloc(w * h);
  for (let i = 0, j = 0; i < gray.length; i++, j += 4) gray[i] = px[j];
  return { data: gray, width: w, height: h };
}
export { Resvg, sharp };
export const grayPng = img => sharp(img.data, { raw: { width: img.width, height: img.height, channels: 1 } }).png({ compressionLevel: 6 }).toBuffer();
