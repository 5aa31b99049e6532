"""probe.py --out probe.onnx: a network of two convolutions whose sums don't fit into 16 bits: 255 times 127, for every weight. Right they give 1 at each place away from the edges.

Processors without 8-bit dot products add pairs of such products in 16 bits and clip them, unless ONNX Runtime is told to be exact.
"""
import argparse

import numpy as np
import onnx
from onnx import TensorProto, helper, numpy_helper

CHANNELS = 32


def main():
    ap = argparse.ArgumentParser(description=__doc__)
    ap.add_argument("--out", required=True)
    a = ap.parse_args()
    nodes, init = [], []

    def const(name, v):
        init.append(numpy_helper.from_array(np.asarray(v), name))
        return name

    def pair(name, step):
        q = [const(name + "_s", np.float32(step)), const(name + "_z", np.uint8(0))]
        nodes.append(helper.make_node("QuantizeLinear", [name, *q], [name + "_q"], name=name + "_Q"))
        nodes.append(helper.make_node("DequantizeLinear", [name + "_q", *q], [name + "_dq"], name=name + "_DQ"))
        return name + "_dq"

    def conv(name, x, kernel, pads):
        w = np.full((CHANNELS, CHANNELS, *kernel), 127, np.int8)
        step = 1 / (127 * w[0].size)  # all ones in, ones out
        parts = [const(name + "_8", w), const(name + "_w", np.full(CHANNELS, step, np.float32)), const(name + "_wz", np.zeros(CHANNELS, np.int8))]
        nodes.append(helper.make_node("DequantizeLinear", parts, [name + "_dw"], name=name + "_DW", axis=0))
        parts = [const(name + "_32", np.zeros(CHANNELS, np.int32)), const(name + "_b", np.full(CHANNELS, step / 255, np.float32)), const(name + "_bz", np.zeros(CHANNELS, np.int32))]
        nodes.append(helper.make_node("DequantizeLinear", parts, [name + "_db"], name=name + "_DB", axis=0))
        nodes.append(helper.make_node("Conv", [x, name + "_dw", name + "_db"], [name], name=name, kernel_shape=kernel, pads=pads))
        return pair(name, 1 / 255)

    y = conv("square", pair("ink", 1 / 255), [3, 3], [1, 1, 1, 1])
    y = conv("level", y, [1, 3], [0, 1, 0, 1])
    nodes.append(helper.make_node("Identity", [y], ["out"]))
    shape = [1, CHANNELS, "h", "w"]
    g = helper.make_graph(nodes, "probe", [helper.make_tensor_value_info("ink", TensorProto.FLOAT, shape)], [helper.make_tensor_value_info("out", TensorProto.FLOAT, shape)], init)
    m = helper.make_model(g, opset_imports=[helper.make_opsetid("", 17)], ir_version=8)
    onnx.checker.check_model(m)
    onnx.save(m, a.out)


if __name__ == "__main__":
    main()
