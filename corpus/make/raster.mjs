// Gray images as Float32Array (0 ink .. 255 paper): warping by a smooth forward map, blur, smooth noise.
export const image = (w, h, v = 255) => ({ w, h, d: new Float32Array(w * h).fill(v) });

/** Invert F (source -> target) on a grid by Newton's method; @returns g(X, Y) -> [x, y], exact to a few thousandths of a pixel. */
export function inverse(F, W, H, guess, step = 16) {
  const nx = Math.ceil(W / step) + 2, ny = Math.ceil(H / step) + 2, gx = new Float64Array(nx * ny), gy = new Float64Array(nx * ny);
  for (let j = 0; j < ny; j++) for (let i = 0; i < nx; i++) {
    const X = i * step, Y = j * step, k = j * nx + i;
    let [x, y] = i > 0 ? [gx[k - 1], gy[k - 1]] : j > 0 ? [gx[k - nx], gy[k - nx]] : guess(X, Y);
    for (let n = 0; n < 12; n++) {
      const [a, b] = F(x, y), [ax, bx] = F(x + 0.5, y), [ay, by] = F(x, y + 0.5);
      const j11 = (ax - a) * 2, j21 = (bx - b) * 2, j12 = (ay - a) * 2, j22 = (by - b) * 2, det = j11 * j22 - j12 * j21, ex = X - a, ey = Y - b;
      const dx = (j22 * ex - j12 * ey) / det, dy = (j11 * ey - j21 * ex) / det;
      x += Math.max(-400, Math.min(400, dx)); y += Math.max(-400, Math.min(400, dy));
      if (Math.abs(dx) + Math.abs(dy) < 1e-3) break;
    }
    gx[k] = x; gy[k] = y;
  }
  return (X, Y) => {
    const u = X / step, v = Y / step, i = Math.floor(u), j = Math.floor(v), s = u - i, t = v - j, k = j * nx + i;
    const mix = g => (g[k] * (1 - s) + g[k + 1] * s) * (1 - t) + (g[k + nx] * (1 - s) + g[k + nx + 1] * s) * t;
    return [mix(gx), mix(gy)];
  };
}
/** Bilinear value at (x, y), pixel centres at .5; outside: `out`. */
export function at(img, x, y, out = 255) {
  x -= 0.5; y -= 0.5;
  const i = Math.floor(x), j = Math.floor(y), s = x - i, t = y - j, { w, h, d } = img;
  const p = (a, b) => (a < 0 || b < 0 || a >= w || b >= h ? out : d[b * w + a]);
  return (p(i, j) * (1 - s) + p(i + 1, j) * s) * (1 - t) + (p(i, j + 1) * (1 - s) + p(i + 1, j + 1) * s) * t;
}
export function blur(img, sigma) {
  if (sigma < 0.2) return img;
  const r = Math.ceil(sigma * 2.5), k = []; let sum = 0;
  for (let i = -r; i <= r; i++) { const v = Math.exp(-(i * i) / (2 * sigma * sigma)); k.push(v); sum += v; }
  const { w, h, d } = img, t = new Float32Array(w * h), o = new Float32Array(w * h);
  for (let y = 0; y < h; y++) for (let x = 0; x < w; x++) { let s = 0; for (let i = -r; i <= r; i++) s += k[i + r] * d[y * w + Math.min(w - 1, Math.max(0, x + i))]; t[y * w + x] = s / sum; }
  for (let y = 0; y < h; y++) for (let x = 0; x < w; x++) { let s = 0; for (let i = -r; i <= r; i++) s += k[i + r] * t[Math.min(h - 1, Math.max(0, y + i)) * w + x]; o[y * w + x] = s / sum; }
  return { w, h, d: o };
}
/** Value noise, about -1 .. 1, smooth over `cell` pixels. */
export function smoothNoise(r, w, h, cell) {
  const nx = Math.ceil(w / cell) + 2, ny = Math.ceil(h / cell) + 2, g = Float32Array.from({ length: nx * ny }, () => r.range(-1, 1));
  return (x, y) => {
    const u = Math.max(0, x) / cell, v = Math.max(0, y) / cell, i = Math.min(nx - 2, Math.floor(u)), j = Math.min(ny - 2, Math.floor(v)); let s = u - i, t = v - j; s = s * s * (3 - 2 * s); t = t * t * (3 - 2 * t);
    const k = j * nx + i;
    return (g[k] * (1 - s) + g[k + 1] * s) * (1 - t) + (g[k + nx] * (1 - s) + g[k + nx + 1] * s) * t;
  };
}
/** Cheap noise per pixel, about sd 1. */
export function grain(r) { const t = Float32Array.from({ length: 65536 }, () => r.gauss(1)); let n = r.int(0, 65535); return () => t[(n = (n * 5 + 12345 + (n >> 7)) & 65535)]; }
/** The same without the fine diagonal pattern that `grain` leaves on even light. */
export function sensor(r) { const t = Float32Array.from({ length: 65536 }, () => r.gauss(1)); let n = r.int(1, 2 ** 31 - 1); return () => { n ^= n << 13; n ^= n >>> 17; n ^= n << 5; return t[n & 65535]; }; }
