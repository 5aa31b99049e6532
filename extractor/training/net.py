"""The sign network: a strip to barlines along x and boxes of the other signs (shapes: extractor/training/README.md)."""
import torch
import torch.nn as nn
import torch.nn.functional as F

ROWS = slice(24, 64)  # of the half-resolution image: the staff with three spaces over and under it


def conv(i, o, k=3, s=1):
    return nn.Sequential(nn.Conv2d(i, o, k, s, k // 2, bias=False), nn.BatchNorm2d(o), nn.ReLU(inplace=True))


class Cross(nn.Module):
    """dilated along x to half the channels, then along y, with a way past; dense, as these run far quicker on a GPU than depthwise"""

    def __init__(self, c, dil=1):
        super().__init__()
        self.body = nn.Sequential(nn.Conv2d(c, c // 2, (1, 3), 1, (0, dil), (1, dil), bias=False), nn.BatchNorm2d(c // 2), nn.ReLU(inplace=True),
                                  nn.Conv2d(c // 2, c, (3, 1), 1, (1, 0), bias=False), nn.BatchNorm2d(c))

    def forward(self, x):
        return F.relu(x + self.body(x))


class Along(nn.Module):
    """1-D residual convolution along the staff"""

    def __init__(self, c, dil):
        super().__init__()
        self.body = nn.Sequential(nn.Conv2d(c, c, (1, 3), 1, (0, dil), (1, dil), bias=False), nn.BatchNorm2d(c))

    def forward(self, x):
        return F.relu(x + self.body(x))


class Signs(nn.Module):
    """lines: seven types, any barline, and whether an ending's bracket is over the place"""

    def __init__(self, kinds=17, lines=9, a=16, b=48, c=128, d=128, deep=(1, 2, 4, 8, 16, 1, 3), fold=(32, 64)):
        super().__init__()
        self.stem = conv(1, a, 3, 2)
        self.first = conv(a, a)
        self.fold = nn.Sequential(conv(a, fold[0], 3, (2, 1)), conv(fold[0], fold[1], 3, (2, 1)), conv(fold[1], fold[1], 3, (2, 1)))
        self.join = conv(5 * fold[1], d, 1)
        self.four = nn.Sequential(conv(a, b, 3, 2), Cross(b), Cross(b, 2), Cross(b, 3))
        self.eight = nn.Sequential(conv(b, c, 3, 2), *[Cross(c, k) for k in deep])
        self.context = nn.Conv2d(2 * c, d, 1)
        self.along = nn.Sequential(*[Along(d, k) for k in (1, 2, 4, 8, 16, 1)])
        self.lines = nn.Conv2d(d, lines, 1)
        self.up = nn.Conv2d(c, b, 1)
        self.mix = nn.Sequential(Cross(b), conv(b, 64, 1))
        self.heat = nn.Conv2d(64, kinds, 1)
        self.size = nn.Conv2d(64, 4, 1)
        nn.init.constant_(self.heat.bias, -4.6)
        nn.init.constant_(self.lines.bias, -4.0)

    def below(self, x):
        """the staff's rows folded once [N,32,20,W/2] and to the end [N,64,5,W/2], and everything at a quarter [N,48,40,W/4]"""
        x = self.first(self.stem(x))
        early = self.fold[0](x[:, :, ROWS])
        return early, self.fold[2](self.fold[1](early)), self.four(x)

    def within(self, x):
        """what a head for charts sees: the folded rows, everything at a quarter and at an eighth, and what the boxes are told from"""
        _, t, f = self.below(x)
        e = self.eight(f)
        return t, f, e, self.mix(f + F.interpolate(self.up(e), scale_factor=2.0, mode="nearest"))

    def far(self, x):
        """what is seen along the staff [N,C,1,W/2], which sees far, and everything at a quarter and at an eighth"""
        _, t, f = self.below(x)
        e = self.eight(f)
        t = self.join(t.flatten(1, 2).unsqueeze(2))
        ctx = self.context(torch.cat([e.mean(2, keepdim=True), e.amax(2, keepdim=True)], 1))
        return self.along(F.relu(t + F.interpolate(ctx, scale_factor=(1.0, 4.0), mode="nearest"))), f, e

    def forward(self, x):
        """-> logits of lines [N,9,W/2], of heat [N,K,40,W/4], and raw sizes [N,4,40,W/4]"""
        t, f, e = self.far(x)
        m = self.mix(f + F.interpolate(self.up(e), scale_factor=2.0, mode="nearest"))
        return self.lines(t).squeeze(2), self.heat(m), self.size(m)


class Barlines(Signs):
    """of the sign network what leads to barlines, for pages written by hand: logits of seven types and of any barline [N,8,W/2]"""

    def __init__(self, **sizes):
        super().__init__(**sizes)
        del self.up, self.mix, self.heat, self.size

    def forward(self, x):
        t, _, _ = self.far(x)
        return self.lines(t).squeeze(2)[:, :8]


class Sounds(nn.Module):
    """
    Notes and rests along the staff (strips.SOUNDS), from what the finished sign network sees: a head of its own, so that nothing else changes.

    What stands at a place is told by the staff's rows near it: `fold`, and `early`, where hollow heads and single beams can still be told from full heads and two
    beams; what stands over and under the staff by all rows (`tower`), looked at along the staff too (`wide`), since a tuplet's figure stands over its middle.
    """

    def __init__(self, early=32, fold=64, four=48, c=64, kinds=16):
        super().__init__()
        self.near = nn.Conv2d(5 * fold, c, 1)
        self.heads = nn.Sequential(nn.Conv2d(early, 32, (3, 1), (2, 1), (1, 0), bias=False), nn.BatchNorm2d(32), nn.ReLU(inplace=True),
                                   nn.Conv2d(32, 48, (3, 1), (2, 1), (1, 0), bias=False), nn.BatchNorm2d(48), nn.ReLU(inplace=True))
        self.close = nn.Conv2d(5 * 48, c, 1)
        self.tower = nn.Sequential(nn.Conv2d(four, 24, (2, 1), (2, 1), bias=False), nn.BatchNorm2d(24), nn.ReLU(inplace=True),
                                   nn.Conv2d(24, 32, (4, 1), (2, 1), (1, 0), bias=False), nn.BatchNorm2d(32), nn.ReLU(inplace=True))
        self.far = nn.Conv2d(10 * 32, c, 1)
        self.wide = nn.Sequential(*[Along(c, k) for k in (1, 2, 4, 8)])
        self.along = nn.Sequential(*[Along(c, k) for k in (1, 2, 1)])
        self.out = nn.Conv2d(c, kinds, 1)
        nn.init.constant_(self.out.bias, -4.0)

    def forward(self, early, fold, four):
        """-> logits [N,16,W/2]"""
        t = self.near(fold.flatten(1, 2).unsqueeze(2)) + self.close(self.heads(early).flatten(1, 2).unsqueeze(2))
        f = self.wide(F.relu(self.far(self.tower(four).flatten(1, 2).unsqueeze(2))))
        return self.out(self.along(F.relu(t + F.interpolate(f, scale_factor=(1.0, 2.0), mode="nearest")))).squeeze(2)


class Charts(nn.Module):
    """
    What half charts are made of (strips.CHARTS), as boxes; and along the staff (strips.ALONG) barlines and what fills a bar, from what the finished sign network sees.

    A head of its own, as Sounds is, so that nothing else changes. `deep` is the network at an eighth, `mix` what its own boxes are told from.
    """

    def __init__(self, kinds, along, fold=64, four=48, deep=128, mix=64, c=48, d=64):
        super().__init__()
        self.own, self.seen, self.under = nn.Conv2d(mix, c, 1), nn.Conv2d(four, c, 1), nn.Conv2d(deep, c, 1)
        self.body = nn.Sequential(Cross(c), Cross(c, 2), Cross(c, 4))
        self.heat, self.size = nn.Conv2d(c, kinds, 1), nn.Conv2d(c, 4, 1)
        self.near = nn.Conv2d(5 * fold, d, 1)
        self.tower = nn.Sequential(nn.Conv2d(c, 24, (4, 1), (4, 1), bias=False), nn.BatchNorm2d(24), nn.ReLU(inplace=True))
        self.far = nn.Conv2d(10 * 24, d, 1)
        self.wide = nn.Sequential(*[Along(d, k) for k in (1, 2, 4, 8, 16, 32)])
        self.along = nn.Sequential(*[Along(d, k) for k in (1, 2, 1)])
        self.out = nn.Conv2d(d, along, 1)
        nn.init.constant_(self.heat.bias, -4.6)
        nn.init.constant_(self.out.bias, -3.0)

    def forward(self, fold, four, deep, mix):
        """-> logits of heat [N,K,40,W/4], raw sizes [N,4,40,W/4], logits along the staff [N,L,W/2]"""
        b = self.body(F.relu(self.own(mix) + self.seen(four) + F.interpolate(self.under(deep), scale_factor=2.0, mode="nearest")))
        f = self.wide(F.relu(self.far(self.tower(b).flatten(1, 2).unsqueeze(2))))
        t = F.relu(self.near(fold.flatten(1, 2).unsqueeze(2)) + F.interpolate(f, scale_factor=(1.0, 2.0), mode="nearest"))
        return self.heat(b), self.size(b), self.out(self.along(t)).squeeze(2)


class Under(nn.Module):
    """
    Marks and bar numbers that stand under their staff (strips.UNDER), as boxes, from what the finished sign network sees: it was taught that what stands there is the next staff's.

    A head of its own, as Charts is; only the rows from the lower half of the staff on are looked at.
    """

    TOP = 24  # of 40 rows

    def __init__(self, kinds, four=48, deep=128, mix=64, c=32):
        super().__init__()
        self.own, self.seen, self.far = nn.Conv2d(mix, c, 1), nn.Conv2d(four, c, 1), nn.Conv2d(deep, c, 1)
        self.body = nn.Sequential(Cross(c), Cross(c, 2), Cross(c, 4))
        self.heat, self.size = nn.Conv2d(c, kinds, 1), nn.Conv2d(c, 4, 1)
        nn.init.constant_(self.heat.bias, -4.6)

    def forward(self, four, deep, mix):
        """-> logits of heat [N,K,16,W/4], raw sizes [N,4,16,W/4]: the rows from TOP on"""
        t = self.own(mix[:, :, self.TOP:]) + self.seen(four[:, :, self.TOP:])
        b = self.body(F.relu(t + F.interpolate(self.far(deep[:, :, self.TOP // 2:]), scale_factor=2.0, mode="nearest")))
        return self.heat(b), self.size(b)


SIZES = dict(full={}, half=dict(b=32, c=96, d=96, fold=(24, 48)))


def descend(model, loss, opt):
    """one step of training down a loss"""
    opt.zero_grad(set_to_none=True)
    loss.backward()
    torch.nn.utils.clip_grad_norm_(model.parameters(), 5.0)
    opt.step()


def load(model, arrays):
    """weights of this or an earlier version: layers that have grown keep their new channels as they were"""
    own = model.state_dict()
    for k, v in arrays.items():
        v = torch.as_tensor(v)
        if own[k].shape == v.shape:
            own[k] = v
        else:
            own[k][:len(v)] = v
    model.load_state_dict(own)


def rounded(model, arrays):
    """makes the layers give what they give in 8 bits (arrays "step:LAYER" of unpack.py), so that a head learns from what it will see"""
    def round_to(step, zero):
        return lambda layer, given, out: ((out / step + zero).round().clamp(0, 255) - zero) * step
    layers = dict(model.named_modules())
    for k in arrays:
        if k.startswith("step:"):
            layers[k[5:]].register_forward_hook(round_to(*map(float, arrays[k])))


class Exported(nn.Module):
    """the network as the extractor runs it: probabilities and pixels"""

    def __init__(self, net):
        super().__init__()
        self.net = net

    def forward(self, strip):
        lines, heat, size = self.net(strip)
        size = torch.cat([size[:, :2] * 4, 8 * torch.exp(size[:, 2:].clamp(-3, 5))], 1)
        return torch.sigmoid(lines), torch.sigmoid(heat), size


# ---------------------------------------------------------------- targets and losses
def line_targets(x, kind, w, sigma=1.6):
    """x [B,L] strip px, kind [B,L] (-1 = none) -> [B,8,W/2]"""
    c = torch.arange(w // 2, device=x.device) * 2 + 1.0
    g = torch.exp(-((c - x.unsqueeze(-1)) / 2) ** 2 / (2 * sigma * sigma))
    g = torch.where(g < 0.02, torch.zeros_like(g), g)
    out = [torch.where((kind == k).unsqueeze(-1), g, torch.zeros_like(g)).amax(1) for k in range(7)]
    out.append(torch.where((kind >= 0).unsqueeze(-1), g, torch.zeros_like(g)).amax(1))
    return torch.stack(out, 1)


def sound_targets(x, kind, kinds, w, sigma=1.2):
    """x [B,S] strip px, kind [B,S] (-1 = none) -> [B,kinds,W/2]"""
    c = torch.arange(w // 2, device=x.device) * 2 + 1.0
    g = torch.exp(-((c - x.unsqueeze(-1)) / 2) ** 2 / (2 * sigma * sigma))
    g = torch.where(g < 0.02, torch.zeros_like(g), g)
    return torch.stack([torch.where((kind == k).unsqueeze(-1), g, torch.zeros_like(g)).amax(1) for k in range(kinds)], 1)


def span_targets(x0, x1, w):
    """ends [B,S] of brackets in strip px (x1 <= x0 = none) -> [B,W/2], 1 under a bracket"""
    c = torch.arange(w // 2, device=x0.device) * 2 + 1.0
    inside = torch.minimum(c - x0.unsqueeze(-1), x1.unsqueeze(-1) - c) / 6 + 0.5  # within three pixels of an end either is right enough
    return torch.where((x1 > x0).unsqueeze(-1), inside.clamp(0, 1), torch.zeros_like(inside)).amax(1)


def span_loss(logit, target):
    logit = logit.float()
    ce = F.binary_cross_entropy_with_logits(logit, target, reduction="none")
    return (ce * ((torch.sigmoid(logit) - target).abs() + 0.02)).sum() / (target.sum() / 16 + len(target) / 4)


def box_targets(cx, cy, w, h, kind, kinds, width):
    """box centres and sizes [B,M] -> heat [B,K,40,W/4]; only the cells near a centre are touched"""
    B, M = cx.shape
    dev, H, W = cx.device, 40, width // 4
    dx, dy = torch.arange(-8, 9, device=dev), torch.arange(-6, 7, device=dev)
    sx, sy = (w / 8).clamp(4, 12) / 4, (h / 8).clamp(3.5, 8) / 4
    # the nearest cell gets 1: a centre between cells must not be a weak target
    gx = torch.exp(-(dx.view(1, 1, -1) ** 2) / (2 * sx.unsqueeze(-1) ** 2))
    gy = torch.exp(-(dy.view(1, 1, -1) ** 2) / (2 * sy.unsqueeze(-1) ** 2))
    g = gy.unsqueeze(-1) * gx.unsqueeze(-2)
    i = torch.floor(cy / 4).long()[..., None, None] + dy.view(1, 1, -1, 1)
    j = torch.floor(cx / 4).long()[..., None, None] + dx.view(1, 1, 1, -1)
    # of a sign over the upper edge the nearest row counts
    i = torch.where((cy < 0)[..., None, None], dy.view(1, 1, -1, 1).expand_as(i), i)
    ok = (kind >= 0)[..., None, None] & (i >= 0) & (i < H) & (j >= 0) & (j < W) & (g > 0.02)
    layer = torch.arange(B, device=dev).view(B, 1) * kinds + kind.clamp(min=0)
    at = (layer[..., None, None] * H + i.clamp(0, H - 1)) * W + j.clamp(0, W - 1)
    out = torch.zeros(B * kinds * H * W, device=dev)
    return out.scatter_reduce_(0, at.reshape(-1), (g * ok).reshape(-1), "amax").view(B, kinds, H, W)


def focal(logit, target, mask=None):
    """penalty-reduced focal loss of centre heat maps, per centre"""
    logit = logit.float()
    p = torch.sigmoid(logit).clamp(1e-5, 1 - 1e-5)
    hit = target > 0.995
    loss = torch.where(hit, -F.logsigmoid(logit) * (1 - p) ** 2, -F.logsigmoid(-logit) * p ** 2 * (1 - target) ** 4)
    if mask is not None:
        loss = loss * mask
    return loss.sum() / hit.sum().clamp(min=1)


def line_loss(logit, target, mask=None):
    """soft cross entropy, weighted towards what is still wrong: positions off a cell's centre keep their peak height"""
    logit = logit.float()
    p = torch.sigmoid(logit)
    ce = F.binary_cross_entropy_with_logits(logit, target, reduction="none")
    ce = ce * ((p - target).abs() ** 1.5 + 0.02)
    if mask is not None:
        ce = ce * mask
    return ce.sum() / (target > 0.7).sum().clamp(min=1)


def size_loss(size, cx, cy, w, h, kind):
    """L1 of offsets and log sizes at the centre cell and its neighbours"""
    B, _, H, W = size.shape
    total, n = 0.0, 0.0
    ok0 = (kind >= 0) & (cx >= 0) & (cx < W * 4) & (cy < H * 4)
    row = torch.floor(cy / 4).long().clamp(min=0)
    for di in (-1, 0, 1):
        for dj in (-1, 0, 1):
            i, j = row + di, torch.floor(cx / 4).long() + dj
            ok = (ok0 & (i >= 0) & (i < H) & (j >= 0) & (j < W)).float()
            at = (i.clamp(0, H - 1) * W + j.clamp(0, W - 1)).unsqueeze(1).expand(-1, 4, -1)
            got = size.float().flatten(2).gather(2, at)
            want = torch.stack([(cx - (j * 4 + 2)) / 4, (cy - (i * 4 + 2)) / 4, torch.log((w / 8).clamp(min=0.1)), torch.log((h / 8).clamp(min=0.1))], 1)
            total = total + ((got - want).abs() * ok.unsqueeze(1)).sum()
            n = n + ok.sum()
    return total / n.clamp(min=1)
