import { type Finding, type Machine, openWorkshop, WayFinder } from '../parts/index.js';
import { Progress } from './progress.js';

/** Ways over a machine’s solids, which takes some seconds. */
export async function measureWays(machine: Machine): Promise<readonly Finding[]> {
  const progress = new Progress();
  try {
    const { kernel } = await openWorkshop();
    return await new WayFinder(kernel).findings(machine, async () =>
      progress.note('measuring ways on the solids'),
    );
  } finally {
    progress.end();
  }
}
