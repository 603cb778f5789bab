import { expect, it } from 'vitest';
import { withWritten } from '../../parts/index.js';
import { starterText } from '../helpers/machines.js';
import { browserForTests, openStarter, PATIENCE, type SceneHost } from './on-page.js';

const browser = browserForTests();
const EDITS = 50;

it('does not grow over fifty edits', { timeout: 4 * PATIENCE }, async () => {
  const { page, complaints } = await openStarter(browser(), 'travelling-demonstrator');
  const session = await page.context().newCDPSession(page);
  const text = starterText('travelling-demonstrator');
  const edit = async (number: number) => {
    const shift = (number % 7) / 10;
    const readings = [79.6, 80.3, 79.8, 80.2].map((value) => (value + shift).toFixed(1));
    const next = withWritten(text, 'column.tube.outer', readings);
    await page.evaluate(async (edited) => {
      const store = globalThis.tubewright;
      store.edit(edited);
      while (store.busy.value) await new Promise((resolve) => setTimeout(resolve, 5));
    }, next);
  };
  const measured = async () => {
    // Until the last machine is drawn, what it replaced is still held.
    await page.evaluate(
      () => new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve))),
    );
    for (let i = 0; i < 3; i++) await session.send('HeapProfiler.collectGarbage');
    const { usedSize } = await session.send('Runtime.getHeapUsage');
    const scene = await page.evaluate(() => document.querySelector<SceneHost>('.canvas')!.scene.stage.memory);
    const nodes = await page.evaluate(() => document.querySelectorAll('*').length);
    return { heap: usedSize / 1e6, ...scene, nodes };
  };
  for (let i = 1; i <= 10; i++) await edit(i);
  await edit(0);
  const early = await measured();
  for (let i = 11; i <= EDITS; i++) await edit(i);
  await edit(0);
  const late = await measured();
  expect(late.geometries).toBe(early.geometries);
  expect(late.textures).toBe(early.textures);
  expect(late.nodes).toBe(early.nodes);
  // MB: the texts kept for undo are some kB each, one machine's meshes about ten.
  expect(late.heap - early.heap).toBeLessThan(5);
  expect(complaints).toEqual([]);
});
