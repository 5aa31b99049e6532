"""Damage of strips on the GPU, after what real scans show: geometry left over from staff tracing, worn print, bilevel scans of
low resolution, photographs, pencil.

Images are float [B, 1, H, W], ink 1, paper 0. Every operation draws its own strength per strip and many leave most strips alone.
"""
import numpy as np
import torch
import torch.nn.functional as F

from scribbles import HEIGHT, pencil_bank  # noqa: F401


def rand(b, lo, hi, dev):
    return torch.rand(b, 1, 1, 1, device=dev) * (hi - lo) + lo


def some(b, p, dev):
    return (torch.rand(b, 1, 1, 1, device=dev) < p).float()


def cloud(b, c, h, w, size, dev):
    """smooth noise, about N(0,1), features of `size` px (height, width)"""
    g = torch.randn(b, c, max(2, round(h / size[0]) + 1), max(2, round(w / size[1]) + 1), device=dev)
    return F.interpolate(g, size=(h, w), mode="bilinear" if size[0] < 8 else "bicubic", align_corners=True)


def spread(x, n, dim):
    """greatest of n neighbours along dim (odd n), by doubling: far quicker than pooling"""
    pad = [0, 0, 0, 0]
    pad[0 if dim == 3 else 2] = pad[1 if dim == 3 else 3] = n // 2
    y, width, size = F.pad(x, pad), 1, x.shape[dim]
    while width < n:
        step = min(width, n - width)
        m = y.shape[dim] - step
        y = torch.maximum(y.narrow(dim, 0, m), y.narrow(dim, step, m))
        width += step
    return y.narrow(dim, 0, size)


def pool_max(x, kh, kw):
    """for x >= 0"""
    x = spread(x, kw, 3) if kw > 1 else x
    return spread(x, kh, 2) if kh > 1 else x


def pool_min(x, kh, kw):
    """for x <= 1; beyond the edge counts as ink"""
    return 1 - pool_max(1 - x, kh, kw)


class Geometry:
    """Shift, scale, lean, bend and wobble. `warp` moves images, `follow` moves points of the source the same way."""

    def __init__(self, b, w, dev, strength=1.0, slack=16):
        u = lambda lo, hi: rand(b, lo * strength, hi * strength, dev)
        self.b, self.w, self.slack = b, w, slack
        self.k = 1 + u(-0.07, 0.07)
        self.ky = self.k * (1 + u(-0.025, 0.025))
        self.lean = u(-0.05, 0.05) * some(b, 0.5, dev)
        self.tilt = u(-0.003, 0.003) * some(b, 0.5, dev)
        self.sx = u(-14, 14)
        self.sy = u(-2.6, 2.6)
        n = (b, 2, HEIGHT, w)
        d = cloud(*n, (400, 300), dev) * torch.cat([u(0, 4), u(0, 1.2)], 1)
        d = d + cloud(*n, (24, 60), dev) * torch.cat([u(0, 1.1), u(0, 0.5)], 1) * some(b, 0.5, dev)
        d = d + cloud(*n, (10, 14), dev) * u(0, 0.45) * some(b, 0.3, dev)
        self.d = d

    def base(self, u, v):
        """affine part: output (u, v) -> source strip coordinates without slack"""
        x = u * self.k + (v - 88) * self.lean + self.sx
        y = (v - 88) * self.ky + 88 + (u - self.w / 2) * self.tilt + self.sy
        return x, y

    def warp(self, img):
        dev = img.device
        u = torch.arange(self.w, device=dev).view(1, 1, 1, -1) + 0.5
        v = torch.arange(HEIGHT, device=dev).view(1, 1, -1, 1) + 0.5
        x, y = self.base(u, v)
        x = x + self.d[:, :1] + self.slack
        y = y + self.d[:, 1:] + self.slack
        h, w = img.shape[2:]
        grid = torch.cat([x * 2 / w - 1, y * 2 / h - 1], 1).permute(0, 2, 3, 1)
        return F.grid_sample(img, grid, mode="bilinear", padding_mode="zeros", align_corners=False)

    def follow(self, px, py):
        """source points [B, M] -> output points [B, M], and the x and y scale from source to output"""
        px, py = px[:, None, None], py[:, None, None]  # [B,1,1,M] like the fields
        dx = dy = torch.zeros_like(px)
        for _ in range(4):
            v = (py - dy - 88 - self.sy) / self.ky + 88
            u = (px - dx - self.sx - (v - 88) * self.lean) / self.k
            v = (py - dy - 88 - self.sy - (u - self.w / 2) * self.tilt) / self.ky + 88
            grid = torch.cat([u * 2 / self.w - 1, v * 2 / HEIGHT - 1], 1).permute(0, 2, 3, 1).clamp(-1, 1)
            d = F.grid_sample(self.d, grid, mode="bilinear", padding_mode="border", align_corners=False)
            dx, dy = d[:, :1], d[:, 1:]
        return u[:, 0, 0], v[:, 0, 0], 1 / self.k[:, 0, 0], 1 / self.ky[:, 0, 0]


def thickness(x):
    b, dev = len(x), x.device
    kinds = torch.randint(0, 6, (b, 1, 1, 1), device=dev)
    a = rand(b, 0, 0.75, dev) * (1 + 0.4 * cloud(b, 1, *x.shape[2:], (80, 160), dev)).clamp(0, 1.3)
    y = x
    for k, size in ((0, (3, 3)), (1, (1, 3)), (2, (3, 1))):
        y = torch.where(kinds == k, x + a * (pool_max(x, *size) - x), y)
    y = torch.where(kinds == 3, x - 0.7 * a * (x - pool_min(x, 3, 3)), y)
    return torch.where(kinds == 4, x - 0.8 * a * (x - pool_min(x, 1, 3)), y)


def worn(x):
    """staff lines faded or broken, thin upright strokes broken, patches rubbed out"""
    b, dev, (h, w) = len(x), x.device, x.shape[2:]
    flat = pool_max(pool_min(x, 1, 15), 1, 15) * (1 - pool_max(pool_min(x, 5, 1), 5, 1)).clamp(0, 1)
    gaps = torch.sigmoid((cloud(b, 1, h, w, (5, 18), dev) - rand(b, -0.3, 2.2, dev)) * 6)
    even = rand(b, 0, 0.8, dev) * some(b, 0.35, dev)
    x = x - flat * torch.maximum(gaps * some(b, 0.45, dev), even)
    tall = pool_max(pool_min(x, 13, 1), 13, 1) * (1 - pool_max(pool_min(x, 1, 5), 1, 5)).clamp(0, 1)
    gaps = torch.sigmoid((cloud(b, 1, h, w, (7, 8), dev) - rand(b, 0.7, 2.2, dev)) * 6)
    fade = rand(b, 0, 0.55, dev) * some(b, 0.2, dev) * (cloud(b, 1, h, w, (200, 40), dev) > 0.3).float()
    x = x - tall * torch.maximum(gaps * some(b, 0.35, dev), fade)
    thin = x * (1 - pool_max(pool_min(x, 3, 3), 3, 3))  # strokes of a pixel or two: hooks, brackets, small letters
    holes = torch.sigmoid((cloud(b, 1, h, w, (5, 7), dev) - rand(b, 1.0, 2.4, dev)) * 6)
    pale = rand(b, 0, 0.6, dev) * some(b, 0.25, dev)
    x = x - thin * torch.maximum(holes * some(b, 0.25, dev), pale)
    rubbed = torch.sigmoid((cloud(b, 1, h, w, (14, 22), dev) - rand(b, 1.9, 3.2, dev)) * 5)
    return (x * (1 - rubbed * some(b, 0.2, dev))).clamp(0, 1)


def neighbours(x):
    """another system at the upper or lower edge, and print from the back of the page"""
    b, dev, h = len(x), x.device, x.shape[2]
    other = x[torch.randperm(b, device=dev)]
    step = int(torch.randint(84, 150, ()))
    pad = torch.zeros_like(other)
    up, down = pad.clone(), pad.clone()
    up[:, :, :h - step] = other[:, :, step:]
    down[:, :, step:] = other[:, :, :h - step]
    which = torch.rand(b, 1, 1, 1, device=dev)
    x = torch.maximum(x, torch.where(which < 0.12, up, torch.where(which < 0.24, down, pad)))
    back = F.avg_pool2d(x[torch.randperm(b, device=dev)].flip(3), 3, 1, 1)
    back = torch.roll(back, (int(torch.randint(-40, 40, ())), int(torch.randint(-300, 300, ()))), (2, 3))
    return torch.maximum(x, back * rand(b, 0.05, 0.5, dev) * some(b, 0.22, dev))


def pencil(x, bank):
    b, dev = len(x), x.device
    p = bank[torch.randint(0, len(bank), (b,), device=dev)].unsqueeze(1).float() / 255
    p = torch.roll(p, int(torch.randint(0, x.shape[3], ())), 3)
    grain = (0.8 + 0.3 * torch.randn_like(x)).clamp(0, 1)
    return torch.maximum(x, p * grain * rand(b, 0.3, 1, dev) * some(b, 0.25, dev))


def blur(x, most=1.5):
    """Gaussian of any direction and length (also motion), one kernel a strip"""
    b, dev, r = len(x), x.device, 4
    t = torch.arange(-r, r + 1, device=dev).float()
    a = rand(b, 0, 3.1416, dev)
    s1 = rand(b, 0.25, most, dev) ** 1.3 * some(b, 0.6, dev) + 0.2
    s2 = torch.where(some(b, 0.8, dev) > 0, s1, s1 + rand(b, 0, 1.6, dev))
    X, Y = t.view(1, 1, 1, -1), t.view(1, 1, -1, 1)
    p, q = X * a.cos() + Y * a.sin(), Y * a.cos() - X * a.sin()
    k = torch.exp(-p * p / (2 * s2 * s2) - q * q / (2 * s1 * s1))
    k = k / k.sum((2, 3), keepdim=True)
    return F.conv2d(x.transpose(0, 1), k, padding=r, groups=b).transpose(0, 1)


def noise(x):
    b, dev, (h, w) = len(x), x.device, x.shape[2:]
    return x + torch.randn_like(x) * rand(b, 0, 0.1, dev) + cloud(b, 1, h, w, (3, 3), dev) * rand(b, 0, 0.1, dev) * some(b, 0.5, dev)


def bilevel(x, soft=(10, 60)):
    b, dev, (h, w) = len(x), x.device, x.shape[2:]
    level = rand(b, 0.28, 0.68, dev) + 0.06 * cloud(b, 1, h, w, (120, 200), dev)
    return torch.sigmoid((x - level) * rand(b, *soft, dev))


def scan(x):
    """a part of the batch each: bilevel at strip resolution, at twice that, at less, gray at less, gray"""
    n = len(x)
    a, b, c, d = (round(n * f) for f in (0.18, 0.44, 0.62, 0.8))
    h, w = x.shape[2:]
    out = [bilevel(noise(x[:a]))] if a else []
    if b > a:
        fine = F.interpolate(x[a:b], scale_factor=2, mode="bilinear", align_corners=False)
        out.append(F.avg_pool2d(bilevel(noise(fine)), 2))
    for part, hard in ((x[b:c], True), (x[c:d], False)):
        if not len(part):
            continue
        f = float(torch.rand(())) * 0.45 + 0.48
        small = F.interpolate(part, size=(int(h * f), int(w * f)), mode="bilinear", align_corners=False, antialias=True)
        small = bilevel(small) if hard else noise(small)
        out.append(F.interpolate(small, size=(h, w), mode="bilinear", align_corners=False))
    if n > d:
        out.append(noise(x[d:]))
    return torch.cat(out).clamp(0, 1)


def specks(x):
    b, dev, (h, w) = len(x), x.device, x.shape[2:]
    dots = F.avg_pool2d((torch.rand_like(x) < rand(b, 0, 0.0025, dev) ** 1.2 * some(b, 0.3, dev)).float(), 3, 1, 1) * 9
    holes = F.avg_pool2d((torch.rand_like(x) < rand(b, 0, 0.008, dev) * some(b, 0.25, dev)).float(), 3, 1, 1) * 9
    keep = torch.rand_like(x) < 0.7
    x = torch.maximum(x, (dots * keep).clamp(0, 1))
    return x * (1 - (holes * keep).clamp(0, 1))


def edges(x):
    """the page's edge or the scanner's black border beside, over or under the staff"""
    b, dev, (h, w) = len(x), x.device, x.shape[2:]
    u = torch.arange(w, device=dev).view(1, 1, 1, -1).float()
    v = torch.arange(h, device=dev).view(1, 1, -1, 1).float()
    lean = rand(b, -0.04, 0.04, dev) * (v - 80)
    left = torch.sigmoid((rand(b, 0, 13, dev) + lean - u) * 1.5) * some(b, 0.06, dev)
    right = torch.sigmoid((u - (w - rand(b, 0, 13, dev)) + lean) * 1.5) * some(b, 0.06, dev)
    top = torch.sigmoid((rand(b, 0, 30, dev) - v) * 1.5) * some(b, 0.04, dev)
    tone = rand(b, 0.3, 1, dev)
    return torch.maximum(x, torch.maximum(torch.maximum(left, right), top) * tone)


def light(x):
    """what flattening leaves of uneven light: gray paper, pale ink"""
    b, dev, (h, w) = len(x), x.device, x.shape[2:]
    paper = (0.03 * cloud(b, 1, h, w, (150, 250), dev)).abs() * some(b, 0.5, dev)
    ink = rand(b, 0.55, 1.0, dev) + 0.1 * cloud(b, 1, h, w, (150, 250), dev) * some(b, 0.4, dev)
    return (paper + x * (ink - paper)).clamp(0, 1)


def blocks(x, share=0.35):
    """coarse 8 x 8 cosine steps, as JPEG leaves them"""
    n = round(len(x) * share)
    if n == 0:
        return x
    dev, (h, w) = x.device, x.shape[2:]
    i = torch.arange(8, device=dev).float()
    D = torch.cos((2 * i.view(1, 8) + 1) * i.view(8, 1) * np.pi / 16) * 0.5
    D[0] *= 0.5 ** 0.5
    step = (0.01 + 0.012 * (i.view(8, 1) + i.view(1, 8))).view(1, 1, 8, 1, 8) * (rand(n, 0.7, 2.6, dev) ** 2).unsqueeze(-1)
    t = x[:n].view(n, h // 8, 8, w // 8, 8)
    c = torch.einsum("ay,nhywx,bx->nhawb", D, t, D)
    c = torch.round(c / step) * step
    y = torch.einsum("ay,nhawb,bx->nhywx", D, c, D).reshape(n, 1, h, w)
    return torch.cat([y.clamp(0, 1), x[n:]])


def damage(x, bank, clean=0.12):
    """the whole way; a share of the strips stays as it was drawn"""
    pure = x
    x = thickness(x)
    x = worn(x)
    x = neighbours(x)
    x = pencil(x, bank)
    x = blur(x)
    x = scan(x)
    x = specks(x)
    x = edges(x)
    x = light(x)
    x = blocks(x)
    return torch.where(some(len(x), clean, x.device) > 0, pure, x)
