"""quantize_head.py SIGNS.onnx SOUNDS.onnx --data FOLDER --out SIGNS.onnx: the head for notes and rests in 8 bits, joined to the sign network in 8 bits.

As quantize.py does it, but for weights of 7 bits: processors without 8-bit dot products add pairs of products in 16 bits, and sums of 8-bit weights would be clipped there.
The rest of the network stays bit for bit what it was. Runs through Node (ORT=FOLDER_WITH_node_modules), needs `apt-get install python3-onnx`.
"""
import argparse
import os
import tempfile

import numpy as np
import onnx
from onnx import helper, numpy_helper

from graft import SEEN, graft
from quantize import SAME, Graph, heads, ranges, samples

MOST = 63  # of a weight


class Head(Graph):
    def from_activation(self, n):
        while n.op_type in SAME and n.input[0] not in SEEN:
            n = self.made.get(n.input[0])
            if n is None or n.op_type in ("Shape", "Constant"):
                return False
        return n.op_type in SAME | {"Conv", "Relu", "Add"}


def quantize(signs, sounds, out, arrays, prefix="sounds"):
    head = Head(sounds)
    floats = heads(head)
    names = [n for n in head.activations(floats) if n not in SEEN]
    whole = graft(onnx.load(signs), onnx.load(sounds), prefix)
    with tempfile.TemporaryDirectory() as tmp:
        path = os.path.join(tmp, "whole.onnx")
        onnx.save(whole, path)
        seen = ranges(path, [prefix + "/" + n for n in names], arrays)
    init = {i.name: numpy_helper.to_array(i) for i in onnx.load(signs).graph.initializer}
    given = {i.name for i in head.g.input}
    step = {k: float(init[v + "_s"]) for k, v in SEEN.items() if k in given}
    zero = {k: int(init[v + "_z"]) for k, v in SEEN.items() if k in given}
    for n in names:
        lo, hi = seen[prefix + "/" + n]
        step[n], zero[n] = (hi - lo) / 255, round(-lo / ((hi - lo) / 255))
    nodes, extra, renamed, gone = [], [], {}, set()

    def const(name, a):
        extra.append(numpy_helper.from_array(np.asarray(a), name))
        return name

    for n in head.g.node:  # what only moves values keeps their scale
        if n.op_type in SAME and n.output[0] in step and n.input[0] in step:
            step[n.output[0]], zero[n.output[0]] = step[n.input[0]], zero[n.input[0]]
    for n in head.g.node:
        if n.op_type == "Conv" and n.name not in floats:
            w, b = (numpy_helper.to_array(head.init[i]) for i in n.input[1:3])
            s = np.maximum(np.abs(w).reshape(len(w), -1).max(1), 1e-8) / MOST
            a, c = n.input[1], n.input[2]
            parts = [const(a + "_8", np.round(w / s.reshape(-1, 1, 1, 1)).astype(np.int8)), const(a + "_s", s.astype(np.float32)), const(a + "_z", np.zeros(len(w), np.int8))]
            nodes.append(helper.make_node("DequantizeLinear", parts, [a + "_dq"], name=a + "_DQ", axis=0))
            bs = s * step[n.input[0]]
            parts = [const(c + "_32", np.round(b / bs).astype(np.int32)), const(c + "_s", bs.astype(np.float32)), const(c + "_z", np.zeros(len(w), np.int32))]
            nodes.append(helper.make_node("DequantizeLinear", parts, [c + "_dq"], name=c + "_DQ", axis=0))
            gone |= {a, c}
            n.input[1], n.input[2] = a + "_dq", c + "_dq"
        n.input[:] = [renamed.get(i, i) for i in n.input]
        nodes.append(n)
        name = n.output[0]
        if name in names:
            q = [const(name + "_s", np.float32(step[name])), const(name + "_z", np.uint8(zero[name]))]
            nodes += [helper.make_node("QuantizeLinear", [name, *q], [name + "_q"], name=name + "_Q"),
                      helper.make_node("DequantizeLinear", [name + "_q", *q], [name + "_dq"], name=name + "_DQ")]
            renamed[name] = name + "_dq"
    del head.g.node[:]
    head.g.node.extend(nodes)
    keep = [i for i in head.g.initializer if i.name not in gone]
    del head.g.initializer[:]
    head.g.initializer.extend(keep + extra)
    onnx.save(graft(onnx.load(signs), head.model, prefix), out)


def main():
    ap = argparse.ArgumentParser(description=__doc__)
    ap.add_argument("signs", help="in 8 bits, with a head for notes and rests or without")
    ap.add_argument("sounds")
    ap.add_argument("--data", required=True)
    ap.add_argument("--out", required=True)
    ap.add_argument("--head", choices=["sounds", "charts", "under"], default="sounds")
    a = ap.parse_args()
    quantize(a.signs, a.sounds, a.out, samples(a.data, False), a.head)


if __name__ == "__main__":
    main()
