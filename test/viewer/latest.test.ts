import { expect, it } from 'vitest';
import { Latest } from '../../viewer/page/latest.js';

it('does one at a time, and of what was wanted meanwhile only the last', async () => {
  const done: number[] = [];
  let finish = () => {};
  const latest = new Latest<number>(async (wanted) => {
    await new Promise<void>((resolve) => {
      finish = resolve;
    });
    done.push(wanted);
  });
  const next = async () => {
    finish();
    await new Promise((resolve) => setTimeout(resolve));
  };
  for (const wanted of [1, 2, 3]) latest.want(wanted);
  await next();
  expect(done).toEqual([1]);
  await next();
  expect(done).toEqual([1, 3]);
  await next();
  expect(done).toEqual([1, 3]);
  latest.want(4);
  await next();
  expect(done).toEqual([1, 3, 4]);
});
