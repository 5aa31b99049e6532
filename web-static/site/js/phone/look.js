/**
 * Looks at a photograph of a page before it is sent: is it blurred, is the page cut off, does a lamp shine in it, is a
 * finger on it? Pure functions on pixels (red, green, blue, opacity of each, by rows), in plain arithmetic: a phone on
 * the local net is given no library, and its address is not a secure one.
 *
 * The figures beside the thresholds were measured on the 34 made photographs of `corpus/pages` as they are, and with faults
 * drawn into them at the size they are looked at. Nothing was said of any of the 34. Said was: of 34 blurred by 1.5, 2 or 3
 * pixels, 34 each; of 34 with an eighth cut off at the left, right, top, bottom, 30, 32, 33, 32 (at the others the music is
 * whole); of 68 with a lamp, 68; of 306 with a finger of three colours of skin at three places, 287 (of the others most lie
 * on the table). Real phones' pictures there were none to measure.
 */

/** @typedef {{data: Uint8ClampedArray|Uint8Array, width: number, height: number}} Pixels */
/** @typedef {"blurred"|"cut"|"glare"|"finger"} Fault */
/** @typedef {{faults: Fault[], sharp: number, cut: string[], glare: number, finger: number}} Look the figures the faults were judged by */

export const LOOK = {
  /** Pixels of the longer side that is looked at: a staff space then has some 8, as when it is read. */
  longSide: 1600,
  /** Side of the tiles sharpness is judged in, pixels: one holds a piece of a staff. */
  tile: 64,
  /** Least variance of gray levels in a tile that has print on it. */
  print: 150,
  /**
   * Least sharpness: variance of the Laplacian by variance of gray. Photographs had 0.12 to 1.11; blurred by 1.5 pixels, a fifth of a staff
   * space, where reading gives up, 0.028 to 0.060; by 2 pixels 0.012 to 0.018.
   */
  sharp: 0.065,
  /** Side of the blocks the paper is looked for in, pixels. */
  block: 8,
  /** Paper has at least this share of the light of the brightest tenth. */
  paper: 0.6,
  /** Paper touches a side of the picture along at least this share of it. */
  touches: 0.5,
  /** Print is darker than the paper around it by this share. */
  ink: 0.18,
  /** Print that runs into the side of the picture goes on for this share of its width: a strip of the page beside it is shorter. */
  runs: 0.3,
  /** A gap in print shorter than this share of the width is none. */
  gap: 0.012,
  /** So many rows of print run into the side; a single line may be a crease. */
  rows: 6,
  /** Gray level of a lamp in the paper, in each colour. */
  lamp: 250,
  /** Paper this bright can't be told from a lamp. */
  lit: 242,
  /** Least share of the picture that a lamp covers; the lamps drawn had 0.0046 to 0.0129, photographs 0.0000. */
  glare: 0.002,
  /** Skin by its colour beside the paper's, Cb and Cr (Chai and Ngan 1999 give 77 to 127 and 133 to 173 for all kinds of skin). */
  skin: { cb: [77, 127], cr: [136, 180], least: 25 },
  /** Least share of the picture that a finger covers; the fingers drawn had 0.0047 to 0.0061, photographs 0.0000. */
  finger: 0.003,
  /** A finger takes at most this share of the picture's rim; a table of the colour of skin takes more. */
  rim: 0.2,
  /** This share of what is beside a finger is paper. */
  onPaper: 0.35,
};

/** What is said of a fault, and what helps. */
export const SAYS = /** @type {Record<Fault, string>} */ ({
  blurred: "It is blurred. Rest your elbows, wait until the camera has focused, or come nearer to a lamp.",
  cut: "The page is cut off. Step back until all of its edges are in the picture.",
  glare: "A lamp shines in it. Turn the page or the lamp until the bright spot is gone.",
  finger: "A finger is on the page. Hold it at its very edge, or lay it down.",
});

/** @param {Pixels} pixels @returns {Look} */
export function look(pixels) {
  const gray = grayOf(pixels);
  const sharp = sharpness(gray, pixels.width, pixels.height);
  const blocks = blocksOf(pixels);
  const cut = cutSides(gray, pixels.width, pixels.height, blocks);
  const glare = glareShare(blocks);
  const finger = fingerShare(blocks);
  /** @type {Fault[]} */
  const faults = [];
  if (sharp < LOOK.sharp) faults.push("blurred");
  if (cut.length) faults.push("cut");
  if (glare >= LOOK.glare) faults.push("glare");
  if (finger >= LOOK.finger) faults.push("finger");
  return { faults, sharp, cut, glare, finger };
}

/** @param {Pixels} pixels @returns {Uint8Array} */
function grayOf({ data, width, height }) {
  const gray = new Uint8Array(width * height);
  for (let i = 0, p = 0; i < gray.length; i++, p += 4) gray[i] = (77 * data[p] + 150 * data[p + 1] + 29 * data[p + 2]) >> 8;
  return gray;
}

/**
 * How sharp print is: the middle one of all tiles that have some. A slope spread over twice the pixels has a quarter of the
 * Laplacian, however dark the print and the picture are.
 *
 * @param {Uint8Array} gray
 * @param {number} width
 * @param {number} height
 */
function sharpness(gray, width, height) {
  const found = [];
  const { tile } = LOOK;
  for (let y = 1; y + tile < height; y += tile) {
    for (let x = 1; x + tile < width; x += tile) {
      const { of, laplacian } = tileOf(gray, width, x, y);
      if (of >= LOOK.print) found.push(laplacian / of);
    }
  }
  found.sort((a, b) => a - b);
  return found.length ? found[Math.floor(found.length / 2)] : 0;
}

/**
 * @param {Uint8Array} gray
 * @param {number} width
 * @param {number} left
 * @param {number} top
 * @returns {{of: number, laplacian: number}} variances
 */
function tileOf(gray, width, left, top) {
  const n = LOOK.tile * LOOK.tile;
  let sum = 0, squares = 0, lSum = 0, lSquares = 0;
  for (let y = top; y < top + LOOK.tile; y++) {
    for (let i = y * width + left, end = i + LOOK.tile; i < end; i++) {
      const g = gray[i];
      const l = 4 * g - gray[i - 1] - gray[i + 1] - gray[i - width] - gray[i + width];
      sum += g;
      squares += g * g;
      lSum += l;
      lSquares += l * l;
    }
  }
  return { of: squares / n - (sum / n) ** 2, laplacian: lSquares / n - (lSum / n) ** 2 };
}

/**
 * The picture in blocks, each with its colour, and whether it is paper.
 *
 * @typedef {{width: number, height: number, red: Float32Array, green: Float32Array, blue: Float32Array, least: Uint8Array, paper: Uint8Array, white: number[]}} Blocks
 *     least: the darkest colour of the brightest pixel in a block; white: the paper's colour
 */

/** @param {Pixels} pixels @returns {Blocks} */
function blocksOf({ data, width: w, height: h }) {
  const { block } = LOOK;
  const width = Math.floor(w / block), height = Math.floor(h / block);
  const n = width * height;
  const red = new Float32Array(n), green = new Float32Array(n), blue = new Float32Array(n), least = new Uint8Array(n);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      let r = 0, g = 0, b = 0, low = 255;
      for (let v = y * block; v < (y + 1) * block; v++) {
        for (let p = 4 * (v * w + x * block), end = p + 4 * block; p < end; p += 4) {
          r += data[p];
          g += data[p + 1];
          b += data[p + 2];
          low = Math.min(low, data[p], data[p + 1], data[p + 2]);
        }
      }
      const i = y * width + x;
      red[i] = r / block ** 2;
      green[i] = g / block ** 2;
      blue[i] = b / block ** 2;
      least[i] = low;
    }
  }
  const bright = Float32Array.from(green).sort()[Math.floor(0.9 * n)];
  const paper = Uint8Array.from(green, (g) => (g >= LOOK.paper * bright ? 1 : 0));
  const white = [red, green, blue].map((c) => middleOf(c, paper));
  return { width, height, red, green, blue, least, paper, white };
}

/**
 * @param {Float32Array} values
 * @param {Uint8Array} where
 */
function middleOf(values, where) {
  const some = values.filter((_, i) => where[i]).sort();
  return some[Math.floor(some.length / 2)] ?? 255;
}

/**
 * The sides at which the page goes on outside the picture. At the ends of the staves that is seen by their lines, which run
 * into the side: the paper may lie against it, because at the fold the page beside it goes on. Above and below it is seen by
 * the paper, unless there is paper all around, or a table as light as paper.
 *
 * @param {Uint8Array} gray
 * @param {number} width
 * @param {number} height
 * @param {Blocks} blocks
 */
function cutSides(gray, width, height, blocks) {
  const [ends, others] = areLevel(gray, width, height) ? [["left", "right"], ["top", "bottom"]] : [["top", "bottom"], ["left", "right"]];
  const around = [...ends, ...others].every((side) => touches(blocks, side));
  return [...ends.filter((side) => runsInto(gray, width, height, side)), ...(around ? [] : others.filter((side) => touches(blocks, side)))];
}

/**
 * Whether the staves lie level, as in a picture that is upright: there is more change down the picture than across.
 *
 * @param {Uint8Array} gray
 * @param {number} width
 * @param {number} height
 */
function areLevel(gray, width, height) {
  let across = 0, down = 0;
  for (let i = width, end = width * (height - 1); i < end; i += 3) {
    across += Math.abs(gray[i + 1] - gray[i - 1]);
    down += Math.abs(gray[i + width] - gray[i - width]);
  }
  return down >= across;
}

/**
 * @param {Blocks} blocks
 * @param {string} side
 */
function touches({ width, height, paper }, side) {
  const along = side === "left" || side === "right" ? height : width;
  let met = 0;
  for (let i = 0; i < along; i++) {
    const at = { left: i * width, right: i * width + width - 1, top: i, bottom: (height - 1) * width + i }[side] ?? 0;
    met += paper[at];
  }
  return met >= LOOK.touches * along;
}

/**
 * Whether rows of print run from a side far into the picture without a gap: the lines of a staff do where the page is cut.
 *
 * @param {Uint8Array} gray
 * @param {number} width
 * @param {number} height
 * @param {string} side
 */
function runsInto(gray, width, height, side) {
  const across = side === "left" || side === "right";
  const along = across ? height : width, deep = across ? width : height;
  const step = { left: 1, right: -1, top: width, bottom: -width }[side] ?? 1;
  const reach = Math.ceil(LOOK.runs * deep), gap = Math.ceil(LOOK.gap * deep);
  let rows = 0, last = -gap;
  for (let i = gap; i < along - gap; i++) {
    const begin = { left: i * width, right: i * width + width - 1, top: i, bottom: (height - 1) * width + i }[side] ?? 0;
    if (runLength(gray, begin, step, across ? width : 1, reach, gap) < reach) continue;
    if (i - last > 1) rows++;
    last = i;
  }
  return rows >= LOOK.rows;
}

/**
 * How far print goes on from a place, a line's slant followed.
 *
 * @param {Uint8Array} gray
 * @param {number} begin
 * @param {number} step to the next pixel
 * @param {number} beside to the next row
 * @param {number} reach enough
 * @param {number} gap
 */
function runLength(gray, begin, step, beside, reach, gap) {
  let at = begin, missed = 0, length = 0;
  while (length < reach && missed <= gap) {
    const around = (gray[at - 3 * beside] + gray[at + 3 * beside]) / 2;
    const dark = (/** @type {number} */ i) => gray[i] < (1 - LOOK.ink) * around;
    if (dark(at)) missed = 0;
    else if (dark(at - beside)) at -= beside, missed = 0;
    else if (dark(at + beside)) at += beside, missed = 0;
    else missed++;
    at += step;
    length++;
  }
  return missed > gap ? length - missed : length;
}

/** @param {Blocks} blocks @returns {number} the largest bright spot as a share of the picture */
function glareShare({ width, height, least, white }) {
  if (Math.min(...white) >= LOOK.lit) return 0;
  const lamp = Uint8Array.from(least, (v) => (v >= LOOK.lamp ? 1 : 0));
  return Math.max(0, ...spots(lamp, width, height).map((spot) => spot.length)) / (width * height);
}

/** @param {Blocks} blocks @returns {number} the largest finger as a share of the picture */
function fingerShare(blocks) {
  const { width, height, paper, red, green, blue, white } = blocks;
  const skin = new Uint8Array(width * height);
  for (let i = 0; i < skin.length; i++) {
    const r = (235 * red[i]) / white[0], g = (235 * green[i]) / white[1], b = (235 * blue[i]) / white[2];
    const light = 0.299 * r + 0.587 * g + 0.114 * b;
    const cb = 128 + 0.564 * (b - light), cr = 128 + 0.713 * (r - light);
    const { skin: is } = LOOK;
    skin[i] = light >= is.least && cb >= is.cb[0] && cb <= is.cb[1] && cr >= is.cr[0] && cr <= is.cr[1] ? 1 : 0;
  }
  const rim = 2 * (width + height);
  const fingers = spots(skin, width, height).filter((spot) => {
    let atRim = 0, beside = 0, onPaper = 0;
    for (const i of spot) {
      const x = i % width, y = Math.floor(i / width);
      if (x === 0 || y === 0 || x === width - 1 || y === height - 1) atRim++;
      for (const [dx, dy] of WAYS) {
        const u = x + dx, v = y + dy;
        if (u < 0 || v < 0 || u >= width || v >= height || skin[v * width + u]) continue;
        beside++;
        // the shadow beside a finger is no paper any more
        const far = (y + 3 * dy) * width + x + 3 * dx;
        if (paper[v * width + u] || paper[far]) onPaper++;
      }
    }
    return atRim > 0 && atRim <= LOOK.rim * rim && onPaper >= LOOK.onPaper * beside;
  });
  return Math.max(0, ...fingers.map((spot) => spot.length)) / (width * height);
}

const WAYS = [[1, 0], [-1, 0], [0, 1], [0, -1]];

/**
 * @param {Uint8Array} mask
 * @param {number} width
 * @param {number} height
 * @returns {number[][]} what hangs together, each as its places
 */
function spots(mask, width, height) {
  const seen = new Uint8Array(mask.length);
  const found = [];
  for (let start = 0; start < mask.length; start++) {
    if (!mask[start] || seen[start]) continue;
    const spot = [start];
    seen[start] = 1;
    for (let k = 0; k < spot.length; k++) {
      const x = spot[k] % width, y = Math.floor(spot[k] / width);
      for (const [dx, dy] of WAYS) {
        const u = x + dx, v = y + dy, i = v * width + u;
        if (u < 0 || v < 0 || u >= width || v >= height || !mask[i] || seen[i]) continue;
        seen[i] = 1;
        spot.push(i);
      }
    }
    found.push(spot);
  }
  return found;
}

/**
 * @param {ImageBitmap} picture
 * @returns {Pixels} as it is looked at
 */
export function pixelsOf(picture) {
  const scale = Math.min(1, LOOK.longSide / Math.max(picture.width, picture.height));
  const canvas = document.createElement("canvas");
  canvas.width = Math.round(picture.width * scale);
  canvas.height = Math.round(picture.height * scale);
  const context = canvas.getContext("2d", { willReadFrequently: true });
  if (!context) throw new Error("this browser can't look at pictures");
  context.imageSmoothingQuality = "high";
  context.drawImage(picture, 0, 0, canvas.width, canvas.height);
  return context.getImageData(0, 0, canvas.width, canvas.height);
}
