// Bundles the page into a folder: page.html, viewer.js (a classic script with worker and WASM inside, so that it opens
// from a file as well as from a server) and viewer.css. Plain JavaScript, because it runs while the program is built.
import { copyFileSync, mkdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { build } from 'esbuild';

const here = dirname(fileURLToPath(import.meta.url));

/** @type {import('esbuild').BuildOptions} */
const common = {
  bundle: true,
  format: 'iife',
  platform: 'browser',
  target: 'es2022',
  minify: true,
  // Names are seen in messages and in what tests look at.
  keepNames: true,
  legalComments: 'none',
  charset: 'utf8',
  loader: { '.wasm': 'binary' },
  // Manifold asks for it under Node only.
  external: ['module', 'node:*'],
  logLevel: 'warning',
  logOverride: { 'empty-import-meta': 'silent' },
  define: { 'process.env.NODE_ENV': '"production"' },
  jsx: 'automatic',
  jsxImportSource: 'preact',
};

/** `worker:./file.ts` is that file’s own bundle as a text. */
const workerText = {
  name: 'worker-text',
  setup(bundler) {
    bundler.onResolve({ filter: /^worker:/ }, ({ path, resolveDir }) => ({
      path: join(resolveDir, path.slice('worker:'.length)),
      namespace: 'worker-text',
    }));
    bundler.onLoad({ filter: /.*/, namespace: 'worker-text' }, async ({ path }) => {
      const { outputFiles } = await build({ ...common, entryPoints: [path], write: false });
      return { contents: outputFiles[0].text, loader: 'text' };
    });
  },
};

/** @param {string} folder made when it is missing */
export async function bundleViewer(folder) {
  mkdirSync(folder, { recursive: true });
  await build({
    ...common,
    entryPoints: [
      { in: join(here, 'page', 'main.tsx'), out: 'viewer' },
      { in: join(here, 'page', 'style.css'), out: 'viewer' },
    ],
    outdir: folder,
    plugins: [workerText],
  });
  copyFileSync(join(here, 'page.html'), join(folder, 'page.html'));
  const script = readFileSync(join(folder, 'viewer.js'));
  const kilobytes = (bytes) => `${Math.round(bytes / 1000)} kB`;
  console.error(`viewer.js ${kilobytes(script.length)}, ${kilobytes(gzipSync(script).length)} compressed`);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await bundleViewer(process.argv[2]);
