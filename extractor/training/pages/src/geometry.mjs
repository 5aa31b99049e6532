// Paths as flat command lists [['M',x,y],['L',x,y],['C',x1,y1,x2,y2,x,y],['Z']], affine maps [a,b,c,d,e,f], boxes [x0,y0,x1,y1].
export const I = [1, 0, 0, 1, 0, 0];
export const mul = (m, n) => [m[0] * n[0] + m[2] * n[1], m[1] * n[0] + m[3] * n[1], m[0] * n[2] + m[2] * n[3], m[1] * n[2] + m[3] * n[3], m[0] * n[4] + m[2] * n[5] + m[4], m[1] * n[4] + m[3] * n[5] + m[5]];
export const scaleOf = m => Math.sqrt(Math.abs(m[0] * m[3] - m[1] * m[2]));
export function transform(text) {
  let m = I;
  for (const [, f, args] of (text ?? '').matchAll(/(\w+)\s*\(([^)]*)\)/g)) {
    const a = args.split(/[\s,]+/).filter(Boolean).map(Number);
    if (f === 'translate') m = mul(m, [1, 0, 0, 1, a[0], a[1] ?? 0]);
    else if (f === 'scale') m = mul(m, [a[0], 0, 0, a[1] ?? a[0], 0, 0]);
    else if (f === 'matrix') m = mul(m, a);
    else if (f === 'rotate') {
      const t = (a[0] * Math.PI) / 180, c = Math.cos(t), s = Math.sin(t);
      if (a.length > 2) m = mul(mul(mul(m, [1, 0, 0, 1, a[1], a[2]]), [c, s, -s, c, 0, 0]), [1, 0, 0, 1, -a[1], -a[2]]);
      else m = mul(m, [c, s, -s, c, 0, 0]);
    }
  }
  return m;
}
const ARITY = { M: 2, L: 2, H: 1, V: 1, C: 6, S: 4, Q: 4, T: 2, A: 7, Z: 0 };
export function parsePath(d) {
  const out = [];
  const toks = d.match(/[a-zA-Z]|[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?/g) ?? [];
  let i = 0, c = '', x = 0, y = 0, sx = 0, sy = 0, px = 0, py = 0;
  while (i < toks.length) {
    if (/[a-zA-Z]/.test(toks[i])) c = toks[i++];
    const U = c.toUpperCase(), rel = c !== U, n = ARITY[U];
    if (n === undefined) throw new Error(`path command ${c}`);
    const a = toks.slice(i, i + n).map(Number); i += n;
    const ox = rel ? x : 0, oy = rel ? y : 0;
    if (U === 'Z') { out.push(['Z']); x = sx; y = sy; continue; }
    if (U === 'M') { x = ox + a[0]; y = oy + a[1]; sx = x; sy = y; out.push(['M', x, y]); c = rel ? 'l' : 'L'; }
    else if (U === 'L') { x = ox + a[0]; y = oy + a[1]; out.push(['L', x, y]); }
    else if (U === 'H') { x = ox + a[0]; out.push(['L', x, y]); }
    else if (U === 'V') { y = oy + a[0]; out.push(['L', x, y]); }
    else if (U === 'C' || U === 'S') {
      const k = U === 'C' ? [ox + a[0], oy + a[1], ox + a[2], oy + a[3], ox + a[4], oy + a[5]] : [2 * x - px, 2 * y - py, ox + a[0], oy + a[1], ox + a[2], oy + a[3]];
      out.push(['C', ...k]); px = k[2]; py = k[3]; x = k[4]; y = k[5]; continue;
    } else if (U === 'Q' || U === 'T') {
      const q = U === 'Q' ? [ox + a[0], oy + a[1], ox + a[2], oy + a[3]] : [2 * x - px, 2 * y - py, ox + a[0], oy + a[1]];
      out.push(['C', x + (2 / 3) * (q[0] - x), y + (2 / 3) * (q[1] - y), q[2] + (2 / 3) * (q[0] - q[2]), q[3] + (2 / 3) * (q[1] - q[3]), q[2], q[3]]);
      px = q[0]; py = q[1]; x = q[2]; y = q[3]; continue;
    } else if (U === 'A') { const ex = ox + a[5], ey = oy + a[6]; arc(out, x, y, a, ex, ey); x = ex; y = ey; }
    px = x; py = y;
  }
  return out;
}
function arc(out, x0, y0, [rx, ry, rot, large, sweep], x1, y1) {
  const n = 8, dx = (x0 - x1) / 2, dy = (y0 - y1) / 2; // circles and near-circles only: rotation is ignored
  if (!rx || !ry) { out.push(['L', x1, y1]); return; }
  const k = Math.max(1, Math.sqrt((dx / rx) ** 2 + (dy / ry) ** 2)); rx *= k; ry *= k;
  const q = Math.sqrt(Math.max(0, (rx * rx * ry * ry - rx * rx * dy * dy - ry * ry * dx * dx) / (rx * rx * dy * dy + ry * ry * dx * dx))) * (large === sweep ? -1 : 1);
  const cx = (q * rx * dy) / ry + (x0 + x1) / 2, cy = (-q * ry * dx) / rx + (y0 + y1) / 2;
  const t0 = Math.atan2((y0 - cy) / ry, (x0 - cx) / rx); let t1 = Math.atan2((y1 - cy) / ry, (x1 - cx) / rx);
  if (sweep && t1 < t0) t1 += 2 * Math.PI; if (!sweep && t1 > t0) t1 -= 2 * Math.PI;
  for (let i = 1; i <= n; i++) { const t = t0 + ((t1 - t0) * i) / n; out.push(['L', cx + rx * Math.cos(t), cy + ry * Math.sin(t)]); }
}
/** Map every point (control points too) through f(x, y) -> [x, y]. */
export const mapPath = (p, f) => p.map(c => { const o = [c[0]]; for (let i = 1; i < c.length; i += 2) { const [x, y] = f(c[i], c[i + 1]); o.push(x, y); } return o; });
export const affine = m => (x, y) => [m[0] * x + m[2] * y + m[4], m[1] * x + m[3] * y + m[5]];
/** Box of the ink of a path, stroke included (butt ends). */
export function inkBox(p, stroke = 0) {
  let b = [Infinity, Infinity, -Infinity, -Infinity], x = 0, y = 0, sx = 0, sy = 0;
  const see = (u, v) => { if (u < b[0]) b[0] = u; if (v < b[1]) b[1] = v; if (u > b[2]) b[2] = u; if (v > b[3]) b[3] = v; };
  const h = stroke / 2;
  const seg = (x0, y0, x1, y1) => {
    const L = Math.hypot(x1 - x0, y1 - y0);
    if (h && L > 0) { const nx = Math.abs((y1 - y0) / L) * h, ny = Math.abs((x1 - x0) / L) * h; for (const [u, v] of [[x0, y0], [x1, y1]]) { see(u - nx, v - ny); see(u + nx, v + ny); } } else { see(x0, y0); see(x1, y1); }
  };
  for (const c of p) {
    if (c[0] === 'M') { [, x, y] = c; sx = x; sy = y; }
    else if (c[0] === 'L') { seg(x, y, c[1], c[2]); x = c[1]; y = c[2]; }
    else if (c[0] === 'C') {
      let u = x, v = y;
      for (let i = 1; i <= 12; i++) { const t = i / 12, s = 1 - t; const nx = s * s * s * x + 3 * s * s * t * c[1] + 3 * s * t * t * c[3] + t * t * t * c[5], ny = s * s * s * y + 3 * s * s * t * c[2] + 3 * s * t * t * c[4] + t * t * t * c[6]; seg(u, v, nx, ny); u = nx; v = ny; }
      x = c[5]; y = c[6];
    } else if (c[0] === 'Z') { if (x !== sx || y !== sy) seg(x, y, sx, sy); x = sx; y = sy; }
  }
  return b;
}
export const union = (a, b) => (a ? (b ? [Math.min(a[0], b[0]), Math.min(a[1], b[1]), Math.max(a[2], b[2]), Math.max(a[3], b[3])] : a) : b);
export const rectPath = (x, y, w, h) => [['M', x, y], ['L', x + w, y], ['L', x + w, y + h], ['L', x, y + h], ['Z']];
export function ellipsePath(cx, cy, rx, ry) {
  const k = 0.5523, P = [['M', cx + rx, cy]];
  P.push(['C', cx + rx, cy + k * ry, cx + k * rx, cy + ry, cx, cy + ry], ['C', cx - k * rx, cy + ry, cx - rx, cy + k * ry, cx - rx, cy], ['C', cx - rx, cy - k * ry, cx - k * rx, cy - ry, cx, cy - ry], ['C', cx + k * rx, cy - ry, cx + rx, cy - k * ry, cx + rx, cy], ['Z']);
  return P;
}
const f2 = v => Math.round(v * 100) / 100;
export const pathText = p => p.map(c => c[0] + c.slice(1).map(f2).join(' ')).join('');
