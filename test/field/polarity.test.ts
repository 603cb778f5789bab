import { expect, it } from 'vitest';
import { ballGradient } from '../../parts/field/gradients.js';
import { terminalPolarity } from '../../parts/field/polarity.js';
import { variant } from '../helpers/variants.js';

it.each([
  ['ptfe', 'neoprene', 'positive'],
  ['pvc', 'natural-latex', 'positive'],
  ['uhmw-pe', 'neoprene', 'positive'],
  ['nylon', 'neoprene', 'negative'],
  ['acrylic-cast', 'neoprene', 'negative'],
  ['nylon', 'silicone', 'negative'],
  ['ptfe', 'silicone', 'unknown'],
  ['pom', 'neoprene', 'unknown'],
  ['polycarbonate', 'neoprene', 'unknown'],
] as const)('%s below a belt of %s: %s', (material, belt, sign) => {
  expect(
    terminalPolarity(
      variant('travelling-demonstrator', { rollers: { lower: { material } }, belt: { material: belt } }),
    ),
  ).toBe(sign);
});

it('lets the unknown sign span both', () => {
  const [positive, negative, unknown] = (['positive', 'negative', 'unknown'] as const).map(ballGradient);
  expect(unknown!.low).toBe(negative!.low);
  expect(unknown!.high).toBe(positive!.high);
  expect(negative!.high).toBeLessThan(positive!.low);
});
