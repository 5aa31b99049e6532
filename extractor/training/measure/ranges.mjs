// node ranges.mjs MODEL.onnx JOB.json: the least and greatest value of each named output over all inputs, the rarest left out.
// Needs `npm install onnxruntime-node` in a folder named by the environment variable ORT.
import { readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
const ort = createRequire(process.env.ORT + "/")("onnxruntime-node");
const [model, jobFile] = process.argv.slice(2);
const session = await ort.InferenceSession.create(model, { intraOpNumThreads: 2 });
const { job, names, keep } = JSON.parse(readFileSync(jobFile));
const low = {}, high = {};
for (const item of job) {
  const raw = readFileSync(item.file);
  const data = new Float32Array(raw.buffer.slice(raw.byteOffset, raw.byteOffset + raw.byteLength));
  const out = await session.run({ [session.inputNames[0]]: new ort.Tensor("float32", data, item.dims) });
  for (const name of names) {
    const v = Float32Array.from(out[name].data).sort(), cut = Math.floor((v.length * (100 - keep)) / 100);
    (low[name] ??= []).push(v[cut]);
    (high[name] ??= []).push(v[v.length - 1 - cut]);
  }
}
const ranges = Object.fromEntries(names.map(n => [n, [Math.min(...low[n]), Math.max(...high[n])]]));
writeFileSync(jobFile, JSON.stringify({ ranges }));
