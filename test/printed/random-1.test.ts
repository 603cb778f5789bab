import { describe } from 'vitest';
import { loadKernel } from '../../parts/solid/manifold-kernel.js';
import { everyMachineGoesTogether } from '../helpers/property.js';

// Half of the random machines; the other half runs in its twin, on the other core.
const kernel = await loadKernel();

describe('machines thrown by dice', () => {
  everyMachineGoesTogether(kernel, 20261101, 100);
});
