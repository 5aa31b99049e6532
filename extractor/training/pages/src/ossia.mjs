// Small staves over the staff (ossia, cue): there to be left out by the reader, so they carry no signs.
import { affine, mapPath } from './geometry.mjs';
import { boxOf, line, obstacle } from './style.mjs';

export function addOssia(from, to, r) {
  const bars = [...new Set(from.prims.filter(p => p.el.kind === 'barline').map(p => p.el.bar))];
  if (bars.length < 3) return;
  const i = bars[r.int(1, bars.length - 2)], own = from.prims.filter(p => p.el.bar === i && !/staffline|word|rehearsal|bar-number|ending|segno|coda|count/.test(p.el.kind));
  if (!own.length) return;
  const b = boxOf(own), k = r.range(0.55, 0.75), w = (b[2] - b[0] + 1) * k, room = to.staves[0].x1 - w;
  if (room < 6 || w < 5) return;
  const x = r.range(5, room), y = obstacle(to, x - 0.5, x + w + 0.5) - 1 - Math.max(2, b[3]) * k;
  const el = { kind: 'ossia', key: 'ossia', bar: -1 }, f = affine([k, 0, 0, k, x - b[0] * k, y]);
  for (let n = -2; n <= 2; n++) to.prims.push(line(x - 0.4, y + n * k, x + w, y + n * k, 0.09, el));
  for (const p of own) to.prims.push({ ...p, path: mapPath(p.path, f), stroke: p.stroke * k, el });
  if (r.chance(0.5)) to.prims.push(line(x - 0.4, y - 2 * k, x - 0.4, y + 2 * k, 0.14, el));
}
