// node run-onnx.mjs MODEL.onnx JOB.json: runs the model over the raw float32 inputs named in JOB.json, writes raw outputs beside them.
// Needs `npm install onnxruntime-node` in a folder named by the environment variable ORT.
import { readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
const ort = createRequire(process.env.ORT + "/")("onnxruntime-node");
const [model, jobFile] = process.argv.slice(2);
const session = await ort.InferenceSession.create(model, { intraOpNumThreads: 2 });
const job = JSON.parse(readFileSync(jobFile));
let ms = 0;
for (const item of job) {
  const raw = readFileSync(item.file);
  const data = new Float32Array(raw.buffer.slice(raw.byteOffset, raw.byteOffset + raw.byteLength));
  const start = performance.now();
  const out = await session.run({ [session.inputNames[0]]: new ort.Tensor("float32", data, item.dims) });
  ms += performance.now() - start;
  item.out = {};
  for (const [name, t] of Object.entries(out)) {
    const file = `${item.file}.${name}`;
    writeFileSync(file, Buffer.from(t.data.buffer, t.data.byteOffset, t.data.byteLength));
    item.out[name] = { file, dims: t.dims };
  }
}
writeFileSync(jobFile, JSON.stringify(job));
console.log(`${job.length} inputs, ${(ms / Math.max(1, job.length)).toFixed(1)} ms each`);
