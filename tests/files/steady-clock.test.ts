/** The clock that only goes forward, beside the measuring module of Node. */
import { performance } from 'node:perf_hooks';
import { setTimeout as wait } from 'node:timers/promises';
import { expect, it } from 'vitest';
import { steadyMs } from '../../src/files/steady-clock.js';

/** What two clocks that are read one after the other may be apart by rounding, ms. */
const ROUNDING = 0.01;

it('tells spans as Node’s own measuring does, which is asked before it and after it', async () => {
  const [before, begin, after] = [performance.now(), steadyMs(), performance.now()];
  await wait(5);
  const [beforeEnd, end, afterEnd] = [performance.now(), steadyMs(), performance.now()];
  expect(end - begin).toBeGreaterThanOrEqual(beforeEnd - after - ROUNDING);
  expect(end - begin).toBeLessThanOrEqual(afterEnd - before + ROUNDING);
});
