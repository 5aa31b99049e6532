"""unpack.py SIGNS.onnx --out signs.npz: the weights of a finished sign network, in floats or in 8 bits, as net.Signs takes them.

The export folds batch norms into the convolutions; here they become the identity with that bias. `step:LAYER` are step and zero of the 8 bits that hold
what a layer gives (net.rounded). Needs `apt-get install python3-onnx`.
"""
import argparse

import numpy as np
import onnx
import torch
from onnx import numpy_helper

import net


def module(name):
    """/net/four/four.1/body/body.0/Conv -> four.1.body.0"""
    out = []
    for part in name.split("/")[2:-1]:
        if out and part.startswith(out[-1] + "."):
            out[-1] = part
        else:
            out.append(part)
    return ".".join(out)


def unpack(path):
    m = onnx.load(path)
    init = {i.name: numpy_helper.to_array(i) for i in m.graph.initializer}

    def value(name):
        raw = name[:-3] if name.endswith("_dq") else name
        if raw in init:
            return init[raw]
        bits = init.get(raw + "_8_squares", init.get(raw + "_8", init.get(raw + "_32")))
        scale = init[raw + "_s"]
        return bits.astype(np.float32) * scale.reshape(-1, *[1] * (bits.ndim - 1))

    def pixels(w):
        """kernels of three by three out of those on squares of four pixels (tidy.py)"""
        if w.shape[1:] != (4, 2, 2):
            return w
        out = np.zeros((len(w), 1, 3, 3), w.dtype)
        for ky in range(3):
            for kx in range(3):
                out[:, 0, ky, kx] = w[:, 2 * ((ky + 1) % 2) + (kx + 1) % 2, (ky + 1) // 2, (kx + 1) // 2]
        return out

    model = net.Signs()
    state = model.state_dict()
    for k in state:
        if k.endswith(("running_mean",)):
            state[k] = torch.zeros_like(state[k])
    for n in m.graph.node:
        if n.op_type != "Conv" or not n.name.startswith("/net/"):
            continue
        name = module(n.name)
        weight = torch.from_numpy(np.array(pixels(value(n.input[1]))))
        bias = torch.from_numpy(np.array(value(n.input[2])))
        own = len(state[name + ".weight"])
        if len(weight) > own:  # heat and size in one (tidy.py)
            state["size.weight"], state["size.bias"] = weight[own:], bias[own:]
            weight, bias = weight[:own], bias[:own]
        state[name + ".weight"] = weight
        if name + ".bias" in state:
            state[name + ".bias"] = bias
            continue
        norm = name[:name.rindex(".") + 1] + str(int(name.split(".")[-1]) + 1)
        state[norm + ".bias"] = bias
        state[norm + ".running_var"] = torch.ones_like(bias)
        state[norm + ".weight"] = torch.full_like(bias, (1 + 1e-5) ** 0.5)
    model.load_state_dict(state)
    layers, steps = dict(model.named_modules()), {}
    for n in m.graph.node:
        if n.op_type == "QuantizeLinear" and n.input[0].startswith("/net/") and n.input[0].split("/")[-1].startswith(("Relu", "Conv")):
            name = module(n.input[0])
            if not name:
                continue  # joins between layers, beyond what `below` gives
            if isinstance(layers[name], torch.nn.Conv2d) and name.split(".")[-1].isdigit():
                name = name[:name.rindex(".") + 1] + str(int(name.split(".")[-1]) + 1)
            steps["step:" + name] = np.array([init[n.input[1]], init[n.input[2]]], np.float32)
    return {k: v.numpy() for k, v in model.state_dict().items()}, steps


def main():
    ap = argparse.ArgumentParser(description=__doc__)
    ap.add_argument("signs")
    ap.add_argument("--out", required=True)
    a = ap.parse_args()
    weights, scales = unpack(a.signs)
    np.savez(a.out, **weights, **scales)


if __name__ == "__main__":
    main()
