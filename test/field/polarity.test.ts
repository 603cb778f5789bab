import { expect, it } from 'vitest';
import { chargingPair } from '../../parts/field/charge/pair.js';

it.each([
  ['ptfe', 'neoprene', 'positive'],
  ['pvc', 'natural-latex', 'positive'],
  ['uhmw-pe', 'neoprene', 'positive'],
  ['nylon', 'neoprene', 'negative'],
  ['acrylic-cast', 'neoprene', 'negative'],
  ['nylon', 'silicone', 'negative'],
  // Side by side in the order; the published densities tell them apart.
  ['ptfe', 'silicone', 'positive'],
  ['pom', 'neoprene', 'unknown'],
  ['polycarbonate', 'neoprene', 'unknown'],
] as const)('%s below a belt of %s: %s', (material, belt, sign) => {
  expect(chargingPair(material, belt).terminal).toBe(sign);
});
