"""quantize.py MODEL.onnx --data FOLDER --out MODEL8.onnx: a float model to one that computes in 8 bits (quantize/dequantize pairs).

Weights: signed, one scale a channel; activations: unsigned, one scale a tensor, from what damaged strips (or crops) of made pages give. The last
convolutions and all that follows stay float. Runs the model through Node (ORT=FOLDER_WITH_node_modules), needs `apt-get install python3-onnx`.
"""
import argparse
import json
import os
import subprocess
import tempfile

import numpy as np
import onnx
import torch
from onnx import TensorProto, helper, numpy_helper

HERE = os.path.dirname(os.path.abspath(__file__))
SAME = {"Slice", "Reshape", "Unsqueeze", "Resize", "Squeeze"}  # keep their input's values
KEEP = 99.99  # per cent of an activation's values kept unclipped


class Graph:
    def __init__(self, path):
        self.model = onnx.load(path)
        self.g = self.model.graph
        self.init = {i.name: i for i in self.g.initializer}
        self.made = {o: n for n in self.g.node for o in n.output}
        self.used = {}
        for n in self.g.node:
            for i in n.input:
                self.used.setdefault(i, []).append(n)

    def activations(self, float_convs):
        """names of tensors to hold in 8 bits, in order: inputs and outputs of quantized convolutions and what joins them"""
        names = [self.g.input[0].name]
        for n in self.g.node:
            out = n.output[0]
            after = {u.op_type for u in self.used.get(out, [])}
            if n.op_type in ("Conv", "Add") and after == {"Relu"} or n.name in float_convs:
                continue
            seen = n.op_type in ("Conv", "Add", "Relu") or n.op_type in ("ReduceMean", "ReduceMax", "Concat", *SAME) and self.from_activation(n)
            if seen and any(self.leads_to_conv(u, float_convs) for u in self.used.get(out, [])):
                names.append(out)
        return names

    def from_activation(self, n):
        while n.op_type in SAME | {"ReduceMean", "ReduceMax", "Concat"}:
            n = self.made.get(n.input[0])
            if n is None or n.op_type in ("Shape", "Constant"):
                return False
        return n.op_type in ("Conv", "Relu", "Add")

    def leads_to_conv(self, n, float_convs):
        if n.op_type == "Conv":
            return True
        return n.op_type in ("Add", "Relu", "ReduceMean", "ReduceMax", "Concat", *SAME) and any(self.leads_to_conv(u, float_convs) for u in self.used.get(n.output[0], []))


def heads(graph):
    """convolutions from which no other convolution follows"""
    def later(n):
        return any(u.op_type == "Conv" or later(u) for u in graph.used.get(n.output[0], []))
    return {n.name for n in graph.g.node if n.op_type == "Conv" and not later(n)}


def ranges(path, names, arrays):
    """(low, high) of each tensor over the arrays"""
    m = onnx.load(path)
    inside = [n for n in names if n != m.graph.input[0].name]
    m.graph.output.extend(helper.make_empty_tensor_value_info(n) for n in inside)
    with tempfile.TemporaryDirectory() as tmp:
        onnx.save(m, os.path.join(tmp, "m.onnx"))
        if not os.environ.get("ORT"):  # ONNX Runtime for Python is here
            import onnxruntime
            run = onnxruntime.InferenceSession(os.path.join(tmp, "m.onnx"), providers=["CPUExecutionProvider"])
            low, high = {n: 0.0 for n in inside}, {n: 1e-4 for n in inside}
            for x in arrays:
                for n, v in zip(inside, run.run(inside, {run.get_inputs()[0].name: x.astype(np.float32)})):
                    v = np.sort(v, None)
                    cut = int(len(v) * (100 - KEEP) / 100)
                    low[n], high[n] = min(low[n], float(v[cut])), max(high[n], float(v[-1 - cut]))
            return {**{n: (low[n], high[n]) for n in inside}, m.graph.input[0].name: (0.0, 1.0)}
        job = []
        for i, x in enumerate(arrays):
            f = os.path.join(tmp, str(i))
            x.astype(np.float32).tofile(f)
            job.append(dict(file=f, dims=list(x.shape)))
        json.dump(dict(job=job, names=inside, keep=KEEP), open(os.path.join(tmp, "job.json"), "w"))
        subprocess.run(["node", os.path.join(HERE, "measure", "ranges.mjs"), os.path.join(tmp, "m.onnx"), os.path.join(tmp, "job.json")], check=True)
        r = json.load(open(os.path.join(tmp, "job.json")))["ranges"]
    return {**{n: (min(0.0, r[n][0]), max(r[n][1], 1e-4)) for n in inside}, m.graph.input[0].name: (0.0, 1.0)}


def quantize(path, out, arrays, skip=()):
    graph = Graph(path)
    g, floats = graph.g, heads(graph) | set(skip)
    names = graph.activations(floats)
    r = ranges(path, names, arrays)
    for n in g.node:  # what only moves values keeps their scale
        if n.op_type in SAME and n.output[0] in r and n.input[0] in r:
            r[n.output[0]] = r[n.input[0]]
    nodes, extra, renamed = [], [], {}

    def const(name, a):
        extra.append(numpy_helper.from_array(np.asarray(a), name))
        return name

    def pair(name):
        lo, hi = r[name]
        s = (hi - lo) / 255
        q = [const(name + "_s", np.float32(s)), const(name + "_z", np.uint8(round(-lo / s)))]
        renamed[name] = name + "_dq"
        return [helper.make_node("QuantizeLinear", [name, *q], [name + "_q"], name=name + "_Q"),
                helper.make_node("DequantizeLinear", [name + "_q", *q], [name + "_dq"], name=name + "_DQ")]

    scale = lambda n: (r[n][1] - r[n][0]) / 255
    nodes += pair(g.input[0].name)
    gone = set()
    for n in g.node:
        if n.op_type == "Conv" and n.name not in floats and n.input[0] in r:
            w = numpy_helper.to_array(graph.init[n.input[1]])
            s = np.maximum(np.abs(w).reshape(len(w), -1).max(1), 1e-8) / 127
            q = np.clip(np.round(w / s.reshape(-1, 1, 1, 1)), -127, 127).astype(np.int8)
            a = n.input[1]
            parts = [const(a + "_8", q), const(a + "_s", s.astype(np.float32)), const(a + "_z", np.zeros(len(w), np.int8))]
            nodes.append(helper.make_node("DequantizeLinear", parts, [a + "_dq"], name=a + "_DQ", axis=0))
            bias = numpy_helper.to_array(graph.init[n.input[2]]).astype(np.float64)
            bs = s * scale(n.input[0])
            c = n.input[2]
            parts = [const(c + "_32", np.round(bias / bs).astype(np.int32)), const(c + "_s", bs.astype(np.float32)), const(c + "_z", np.zeros(len(w), np.int32))]
            nodes.append(helper.make_node("DequantizeLinear", parts, [c + "_dq"], name=c + "_DQ", axis=0))
            gone |= {a, c}
            n.input[1], n.input[2] = a + "_dq", c + "_dq"
        for i, name in enumerate(n.input):
            n.input[i] = renamed.get(name, name)
        nodes.append(n)
        if n.output[0] in r:
            nodes += pair(n.output[0])
    del g.node[:]
    g.node.extend(nodes)
    keep = [i for i in g.initializer if i.name not in gone]
    del g.initializer[:]
    g.initializer.extend(keep + extra)
    onnx.checker.check_model(graph.model)
    onnx.save(graph.model, out)


def samples(data, crops, n=24):
    """damaged strips (or crops) of made pages, from a fixed seed"""
    import damage
    import numerals
    import store
    import train_signs
    torch.manual_seed(3)
    items = store.read_all(data, "crops" if crops else "strips")
    items = [items[i] for i in np.random.default_rng(3).permutation(len(items))[:n * (20 if crops else 1)]]
    if not crops:
        d = train_signs.Data(items, "cpu")
        idx = torch.randperm(len(d.img))[:n]
        x = d.batch(idx, torch.from_numpy(damage.pencil_bank(60, train_signs.W)))[0]
        return [v[None].numpy() for v in x]
    out = []
    for img, label in items:
        w = min(320, (img.shape[1] - 16 + 7) // 8 * 8)
        g = np.full((48, max(48, w) + 16), 255, np.uint8)
        g[:, :min(g.shape[1], img.shape[1])] = img[:, :g.shape[1]]
        x = numerals.wear(numerals.jitter(torch.from_numpy(g)[None].repeat(4, 1, 1), torch.full((4,), img.shape[1] - 16)))[:1]
        out.append(x.numpy())
    return out


def main():
    ap = argparse.ArgumentParser(description=__doc__)
    ap.add_argument("model")
    ap.add_argument("--data", required=True)
    ap.add_argument("--out", required=True)
    ap.add_argument("--float", nargs="*", default=[], help="names of convolutions that stay float")
    a = ap.parse_args()
    crops = onnx.load(a.model).graph.input[0].name == "crop"
    quantize(a.model, a.out, samples(a.data, crops), a.float)


if __name__ == "__main__":
    main()
