// node verovio.mjs JOBS.json: engraves MEI files with Verovio. A job is one page: its blocks are engraved with the widest
// space between systems at which together they stay under the page's height; each once as picture, once with boxes.
import createModule from "verovio/wasm";
import { VerovioToolkit } from "verovio/esm";
import { readFileSync, writeFileSync } from "node:fs";

const module = await createModule();
const toolkit = new VerovioToolkit(module);
toolkit.setOptions({ xmlIdChecksum: true });

function engrave(job, block, spacingSystem, svgBoundingBoxes) {
  toolkit.resetOptions();
  toolkit.setOptions({ ...job.options, spacingSystem, svgBoundingBoxes });
  if (!toolkit.loadData(readFileSync(block.input, "utf8"))) throw new Error("Verovio can't read " + block.input);
  if (toolkit.getPageCount() !== 1) throw new Error(block.input + " takes more than a page");
  return toolkit.renderToSVG(1);
}
const height = (svg) => parseFloat(/<svg[^>]* height="([\d.]+)px"/.exec(svg)[1]);

for (const job of JSON.parse(readFileSync(process.argv[2], "utf8"))) {
  let spacing = 30;
  for (; spacing > 2; spacing--) {
    const total = job.blocks.reduce((sum, b) => sum + height(engrave(job, b, spacing, false)), 0);
    if (total <= job.maxHeight) break;
  }
  for (const block of job.blocks) {
    writeFileSync(block.picture, engrave(job, block, spacing, false));
    writeFileSync(block.boxes, engrave(job, block, spacing, true));
  }
}
