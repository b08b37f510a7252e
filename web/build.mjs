// SPDX-License-Identifier: MIT
// Builds the page into dist/, or the folder named: types checked, a script and the one that turns models,
// one style sheet, the
// licences of what is in them, each compressed, and the fingerprint of what they were built from.
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdirSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { build } from 'vite';

const here = dirname(fileURLToPath(import.meta.url));
const out = resolve(process.argv[2] ?? join(here, 'dist'));

execFileSync(process.execPath, [join(here, 'node_modules/typescript/bin/tsc'), '-p', here], {
  stdio: 'inherit',
});
const { output } = await build({
  root: join(here, 'src'),
  configFile: false,
  logLevel: 'warn',
  build: {
    write: false,
    modulePreload: false,
    assetsInlineLimit: 0,
    rollupOptions: {
      output: { entryFileNames: 'app.js', chunkFileNames: '[name].js', assetFileNames: 'app[extname]' },
    },
  },
}).then((result) => (Array.isArray(result) ? result[0] : result));

const notices = ['preact', '@preact/signals', '@preact/signals-core', 'three']
  .map((name) => {
    const folder = join(here, 'node_modules', name);
    const { version } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
    return `${name} ${version}\n\n${readFileSync(join(folder, 'LICENSE'), 'utf8').trim()}\n`;
  })
  .join('\n----\n\n');

const files = { 'notices.txt': notices };
for (const piece of output) files[piece.fileName] = piece.code ?? piece.source;

rmSync(out, { recursive: true, force: true });
mkdirSync(out, { recursive: true });
for (const [name, text] of Object.entries(files).sort()) {
  const bytes = gzipSync(text, { level: 9 });
  bytes[9] = 0xff; // no word of the system that it was made on
  writeFileSync(join(out, `${name}.gz`), bytes);
}

// The same sum as tests/web/bundle_is_fresh.py makes.
const sources = ['build.mjs', 'package-lock.json', 'package.json', 'tsconfig.json'].concat(
  readdirSync(join(here, 'src')).map((name) => `src/${name}`),
);
const sum = createHash('sha256');
for (const name of sources.sort()) sum.update(`${name}\n`).update(readFileSync(join(here, name)));
writeFileSync(join(out, 'BUILD.json'), `{"sources": "${sum.digest('hex')}"}\n`);
