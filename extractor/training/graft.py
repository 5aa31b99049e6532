"""graft.py SIGNS.onnx SOUNDS.onnx --out SIGNS.onnx: the head for notes and rests joined to the sign network, in floats or in 8 bits, whose other outputs stay bit for bit what they were.

The head's inputs become what the network sees half way (net.Signs.below). Needs `apt-get install python3-onnx`.
"""
import argparse

import onnx
from onnx import helper

SEEN = dict(early="/net/fold/fold.0/fold.0.2/Relu_output_0", fold="/net/fold/fold.2/fold.2.2/Relu_output_0", four="/net/four/four.3/Relu_output_0",
            deep="/net/eight/eight.7/Relu_output_0", mix="/net/mix/mix.1/mix.1.2/Relu_output_0")


def without(signs, head="sounds"):
    """the sign network without a head (for notes and rests, or for charts)"""
    for field in (signs.graph.node, signs.graph.initializer, signs.graph.output):
        rest = [v for v in field if not v.name.startswith(head)]
        del field[:]
        field.extend(rest)


def graft(signs, sounds, head="sounds"):
    """a head joined before is taken out; names of outputs begin with the head's"""
    without(signs, head)
    made = {o for n in signs.graph.node for o in n.output}
    given = {i.name for i in sounds.graph.input}
    own = {k: v + "_dq" if v + "_dq" in made else v for k, v in SEEN.items() if k in given}
    outputs = [o.name for o in sounds.graph.output]
    missing = set(own.values()) - made
    if missing:
        raise SystemExit("the sign network has no " + ", ".join(sorted(missing)))
    name = lambda n: own.get(n, n if n == "" or n in outputs else head + "/" + n)
    for i in sounds.graph.initializer:
        i.name = name(i.name)
        signs.graph.initializer.append(i)
    for n in sounds.graph.node:
        n.name = head + "/" + n.name
        n.input[:] = [name(i) for i in n.input]
        n.output[:] = [name(o) for o in n.output]
        signs.graph.node.append(n)
    for o in sounds.graph.output:
        dims = o.type.tensor_type.shape.dim
        signs.graph.output.append(helper.make_tensor_value_info(o.name, 1, ["n", dims[1].dim_value or "k", *([40, "w4"] if len(dims) == 4 else ["w2"])]))
    onnx.checker.check_model(signs)
    return signs


def main():
    ap = argparse.ArgumentParser(description=__doc__)
    ap.add_argument("signs")
    ap.add_argument("sounds")
    ap.add_argument("--out", required=True)
    a = ap.parse_args()
    onnx.save(graft(onnx.load(a.signs), onnx.load(a.sounds)), a.out)


if __name__ == "__main__":
    main()
