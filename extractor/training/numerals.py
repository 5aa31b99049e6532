"""The reader: a crop of 32 px height to text (counts, meters, marks, bar numbers, endings, words), trained with CTC."""
import torch
import torch.nn as nn
import torch.nn.functional as F

from charset import CHARS
from net import Along, conv

class Reader(nn.Module):
    def __init__(self, chars=len(CHARS) + 1, d=160):
        super().__init__()
        self.body = nn.Sequential(conv(1, 24, 3), conv(24, 32, 3, 2), conv(32, 48, 3), conv(48, 64, 3, 2), conv(64, 96, 3, (2, 1)), conv(96, 96, 3))
        self.join = conv(4 * 96, d, 1)
        self.along = nn.Sequential(*[Along(d, k) for k in (1, 2, 4, 1, 2)])
        self.out = nn.Conv2d(d, chars, 1)

    def forward(self, x):
        """[N,1,32,W] -> log probabilities [N, W/4, chars]"""
        t = self.body(x)
        t = self.join(t.flatten(1, 2).unsqueeze(2))
        return F.log_softmax(self.out(self.along(t)).squeeze(2).transpose(1, 2).float(), -1)


def jitter(img, width):
    """crops uint8 [B,48,W+16] (8 px around the view) -> float ink [B,1,32,W+pad]; the view moved, scaled, leaned, damaged"""
    b, dev = len(img), img.device
    x = (255 - img.unsqueeze(1).float()) / 255
    w = x.shape[3] - 16
    u = lambda lo, hi: (torch.rand(b, 1, 1, 1, device=dev) * (hi - lo) + lo)
    k, ks = 1 + u(-0.12, 0.14), 1 + u(-0.1, 0.1)
    grow = (width.view(-1, 1, 1, 1) > 60).float()
    X = torch.arange(w, device=dev).view(1, 1, 1, -1) + 0.5
    Y = torch.arange(32, device=dev).view(1, 1, -1, 1) + 0.5
    sx = (X - 16) * k * ks + 16 + 8 + u(-4, 4) + (Y - 16) * u(-0.18, 0.18)
    sy = (Y - 16) * k + 16 + 8 + u(-3.5, 3.5) + (X - 16) * u(-0.012, 0.012)
    if torch.rand(()) < 0.6:  # a shaky hand
        d = F.interpolate(torch.randn(b, 2, 5, max(3, w // 8), device=dev), size=(32, w), mode="bicubic", align_corners=True)
        sx, sy = sx + d[:, :1] * u(0, 0.9), sy + d[:, 1:] * u(0, 0.8)
    grid = torch.cat([sx * 2 / x.shape[3] - 1, sy * 2 / 48 - 1], 1).permute(0, 2, 3, 1)
    x = F.grid_sample(x, grid, mode="bilinear", padding_mode="zeros", align_corners=False)
    X0 = torch.arange(w, device=dev).view(1, 1, 1, -1)
    return x * (X0 < width.view(-1, 1, 1, 1) + grow * 4)  # right of the view: padding


def wear(x):
    """thickness, blur, low resolution, thresholds, noise, dropout"""
    from damage import bilevel, blocks, blur, cloud, noise, pool_max, pool_min, rand, some

    b, dev, (h, w) = len(x), x.device, x.shape[2:]
    pure = x
    a = rand(b, 0, 0.8, dev)
    which = torch.rand(b, 1, 1, 1, device=dev)
    x = torch.where(which < 0.2, x + a * (pool_max(x, 3, 3) - x), torch.where(which < 0.4, x - a * (x - pool_min(x, 3, 3)), x))
    x = x * (1 - torch.sigmoid((cloud(b, 1, h, w, (4, 6), dev) - rand(b, 1.3, 2.6, dev)) * 6) * some(b, 0.25, dev))
    x = blur(x, 1.1)
    x = torch.where(some(b, 0.08, dev) > 0, blur(x), x)
    f = float(torch.rand(())) * 0.58 + 0.42
    n = round(b * 0.45)
    small = F.interpolate(x[:n], size=(int(32 * f), max(4, int(w * f))), mode="bilinear", align_corners=False, antialias=True)
    small = torch.where(some(n, 0.6, dev) > 0, bilevel(small, (6, 30)), small)
    x = torch.cat([F.interpolate(small, size=(h, w), mode="bilinear", align_corners=False), x[n:]])
    x = torch.where(some(b, 0.35, dev) > 0, bilevel(noise(x)), noise(x))
    x = blocks(x, 0.3)
    x = x * rand(b, 0.55, 1, dev)
    return torch.where(some(b, 0.12, dev) > 0, pure, x).clamp(0, 1)


def greedy(logp):
    """[T, C] -> text"""
    best, out, last = logp.argmax(-1).tolist(), [], 0
    for c in best:
        if c and c != last:
            out.append(CHARS[c - 1])
        last = c
    return "".join(out)
