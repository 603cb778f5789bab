import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { type Browser, type BrowserContextOptions, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, onTestFinished } from 'vitest';
import type { Vec3 } from '../../parts/index.js';
import type { Store } from '../../viewer/page/store.js';
import type { SceneView } from '../../viewer/scene/scene-view.js';
import { findChromium, MISSING } from '../helpers/chromium.js';
import { type Starter, starterPath } from '../helpers/machines.js';
import { tubewright as program, start } from '../helpers/program.js';

/** What the page holds out to tests. */
declare global {
  var tubewright: Store;
}

/** A page of the viewer under test. */
export interface Viewer {
  readonly page: Page;
  /** What the console said and what was thrown, warnings and worse. */
  readonly complaints: string[];
}

/** Software rendering; and nothing that Chromium would ask of the network by itself. */
const FLAGS = [
  '--no-sandbox',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];
const WITH_WEBGL = ['--use-gl=angle', '--use-angle=swiftshader', '--enable-unsafe-swiftshader'];
const WITHOUT_WEBGL = ['--disable-gpu', '--disable-3d-apis'];

/** What software rendering on a loaded machine may take, ms. */
export const PATIENCE = 60_000;

/** One Chromium for all tests of a file. */
export function browserForTests({ webgl = true }: { readonly webgl?: boolean } = {}): () => Browser {
  let browser: Browser | undefined;
  beforeAll(async () => {
    const executablePath = findChromium();
    if (!executablePath) throw new Error(MISSING);
    browser = await chromium.launch({
      executablePath,
      args: [...FLAGS, ...(webgl ? WITH_WEBGL : WITHOUT_WEBGL)],
    });
  }, PATIENCE);
  afterAll(async () => browser?.close());
  return () => browser!;
}

/** A page of its own, closed when the test is over. */
export async function openPage(
  browser: Browser,
  address: string,
  options: BrowserContextOptions = {},
): Promise<Viewer> {
  const context = await browser.newContext({
    viewport: { width: 1280, height: 800 },
    acceptDownloads: true,
    // Flights of the camera take no time.
    reducedMotion: 'reduce',
    ...options,
  });
  onTestFinished(() => context.close());
  const page = await context.newPage();
  page.setDefaultTimeout(PATIENCE);
  const complaints: string[] = [];
  page.on('console', (message) => {
    // What software rendering says about its own speed is no complaint about the page.
    const own = /GPU stall due to ReadPixels|Automatic fallback to software WebGL/.test(message.text());
    if (['warning', 'error'].includes(message.type()) && !own) complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.stack ?? error.message));
  await page.goto(address);
  return { page, complaints };
}

/** Waits until the page has drawn the machine it works on, and has nothing left to do. */
export async function settled(page: Page): Promise<void> {
  await page.waitForFunction(() => {
    const { busy, field } = globalThis.tubewright;
    return document.documentElement.dataset.ready === 'yes' && !busy.value && !field.solving.value;
  });
  await page.evaluate(
    () => new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve))),
  );
}

const exported = new Map<string, string>();

/** The page of a machine file as `view --export` writes it, as an address; each file is exported once. */
export function exportedPage(path: string): string {
  const known = exported.get(path);
  if (known) return known;
  const folder = mkdtempSync(join(tmpdir(), 'tubewright-page-'));
  process.on('exit', () => rmSync(folder, { recursive: true, force: true }));
  const { status, stderr } = program(['view', path, '--export', folder]);
  if (status !== 0) throw new Error(stderr);
  const address = pathToFileURL(join(folder, 'index.html')).href;
  exported.set(path, address);
  return address;
}

/** Opens a starter's exported page from its file and waits until it is drawn. */
export async function openStarter(
  browser: Browser,
  starter: Starter,
  options: BrowserContextOptions = {},
): Promise<Viewer> {
  const viewer = await openPage(browser, exportedPage(starterPath(starter)), options);
  await settled(viewer.page);
  return viewer;
}

/** Serves a machine file for one test. */
export async function served(
  path: string,
): Promise<{ readonly address: string; readonly stop: () => Promise<void> }> {
  const { child, ended } = start(['view', path, '--no-open', '--json']);
  const stop = async () => {
    child.kill('SIGINT');
    await ended;
  };
  onTestFinished(stop);
  const address = await new Promise<string>((resolve, reject) => {
    child.stdout!.once('data', (line: Buffer) => resolve(JSON.parse(String(line)).address));
    void ended.then(({ stderr }) => reject(new Error(stderr || 'the program ended')));
  });
  return { address, stop };
}

/** The scene behind the canvas. To be used inside the page only. */
export const SCENE = '.canvas';
export type SceneHost = HTMLElement & { readonly scene: SceneView };

/** What the page’s store holds under a name. */
export const value = <T>(page: Page, name: string): Promise<T> =>
  page.evaluate(
    (key) => (globalThis.tubewright as unknown as Record<string, { value: unknown }>)[key]!.value,
    name,
  ) as Promise<T>;

/** The working text. */
export const textOf = (page: Page): Promise<string> => value<string>(page, 'text');

/** Where points of the machine (mm) are on the screen. */
export function onScreen(page: Page, points: readonly Vec3[]): Promise<{ x: number; y: number }[]> {
  return page.evaluate((all) => {
    const host = document.querySelector<SceneHost>('.canvas')!;
    const { left, top, width, height } = host.getBoundingClientRect();
    const { camera } = host.scene.stage;
    return all.map((point) => {
      const at = camera.position
        .clone()
        .set(...(point as [number, number, number]))
        .project(camera);
      return { x: left + ((at.x + 1) / 2) * width, y: top + ((1 - at.y) / 2) * height };
    });
  }, points);
}

/** Colours of a PNG or other image, as the browser reads it. */
export interface Colours {
  /** How many there are. */
  readonly count: number;
  /** Share of the most frequent one. */
  readonly most: number;
}

/** The colours of the scene’s picture. */
export function coloursOf(page: Page): Promise<Colours> {
  return page.evaluate(async () => {
    const { scene } = document.querySelector<SceneHost>('.canvas')!;
    const bitmap = await createImageBitmap(await scene.picture());
    const canvas = new OffscreenCanvas(bitmap.width, bitmap.height);
    const pen = canvas.getContext('2d')!;
    pen.drawImage(bitmap, 0, 0);
    const { data } = pen.getImageData(0, 0, bitmap.width, bitmap.height);
    const counts = new Map<number, number>();
    for (let i = 0; i < data.length; i += 4) {
      const colour = (data[i]! << 16) | (data[i + 1]! << 8) | data[i + 2]!;
      counts.set(colour, (counts.get(colour) ?? 0) + 1);
    }
    return { count: counts.size, most: (4 * Math.max(...counts.values())) / data.length };
  });
}
