import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { type Browser, chromium, type Page } from 'playwright-core';
import { findChromium, MISSING } from '../helpers/chromium.js';

// What the page takes, from the machine file to the picture, in a Chromium that draws in software. All in ms.

const FLAGS = [
  '--no-sandbox',
  '--use-gl=angle',
  '--use-angle=swiftshader',
  '--enable-unsafe-swiftshader',
  '--disable-background-networking',
];

/** Times of one page. */
export interface PageTimes {
  /** From the page's address to the picture of the whole machine. */
  readonly first: number;
  /** From an edit of the tube's diameter to the picture of the changed machine. */
  readonly edit: number;
}

/** Run in the page as text, since the benchmarks are compiled without a browser's types. */
const READY = `document.documentElement.dataset.ready === 'yes' && !tubewright.busy.value`;
const editing = (text: string): string => `(async () => {
  const { scene } = document.querySelector('.canvas');
  const frame = () => new Promise((resolve) => requestAnimationFrame(resolve));
  // Software goes on drawing the frame before on the same two cores: the clock starts when that is done.
  const gl = scene.stage.canvas.getContext('webgl2');
  gl.readPixels(0, 0, 1, 1, gl.RGBA, gl.UNSIGNED_BYTE, new Uint8Array(4));
  const before = tubewright.shown.value;
  const began = performance.now();
  tubewright.edit(${JSON.stringify(text)});
  while (tubewright.shown.value === before) await new Promise((resolve) => setTimeout(resolve, 1));
  while (scene.stage.pending) await frame();
  return performance.now() - began;
})()`;

/** @param edits texts that are shown one after another, each another edit of the one before */
export async function timePage(
  exportPage: (folder: string) => void,
  edits: readonly string[],
  rounds: number,
): Promise<PageTimes[]> {
  const executablePath = findChromium();
  if (!executablePath) throw new Error(MISSING);
  const folder = mkdtempSync(join(tmpdir(), 'tubewright-bench-'));
  const browser = await chromium.launch({ executablePath, args: FLAGS });
  try {
    exportPage(folder);
    const times: PageTimes[] = [];
    for (let round = 0; round < rounds; round++) {
      times.push(await timeOnce(browser, pathToFileURL(join(folder, 'index.html')).href, edits));
    }
    return times;
  } finally {
    await browser.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

async function timeOnce(browser: Browser, address: string, edits: readonly string[]): Promise<PageTimes> {
  const page: Page = await browser.newPage({
    viewport: { width: 1280, height: 800 },
    reducedMotion: 'reduce',
  });
  const began = performance.now();
  await page.goto(address);
  await page.waitForFunction(READY);
  const first = performance.now() - began;
  let edit = Number.POSITIVE_INFINITY;
  for (const text of edits) edit = Math.min(edit, (await page.evaluate(editing(text))) as number);
  await page.close();
  return { first, edit };
}
