// node corpus/make/manifest.mjs: corpus/manifest.json from what lies in corpus/pages, every file pinned by its SHA-256.
import crypto from 'node:crypto';
import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

export function manifest() {
  const root = path.join(path.dirname(fileURLToPath(import.meta.url)), '..'), dir = path.join(root, 'pages');
  const sha = f => crypto.createHash('sha256').update(fs.readFileSync(path.join(dir, f))).digest('hex');
  const pages = fs.readdirSync(dir).filter(f => f.endsWith('.json')).sort().map(truth => {
    const map = JSON.parse(fs.readFileSync(path.join(dir, truth))), file = map.pages[0].source;
    return { file: `pages/${file}`, sha256: sha(file), truth: `pages/${truth}`, truthSha256: sha(truth), ...map.corpus, licence: 'Apache-2.0' };
  });
  fs.writeFileSync(path.join(root, 'manifest.json'), JSON.stringify({ format: 'barmap-corpus/1', madeBy: 'corpus/make/make.mjs', pages }, null, 1) + '\n');
  return pages.length;
}
if (process.argv[1] === fileURLToPath(import.meta.url)) console.log(`${manifest()} pages`);
