import { Script } from 'node:vm';
import { describe, expect, it } from 'vitest';
import { fitNursery, setNursery, sweepAway, underFirstFlags } from '../../src/cli/nursery.js';

const SOURCE = '(function () { return 1; })';
/** A heap that is worth collecting. */
const large = Array.from({ length: 800_000 }, (_, i) => ({ i, half: i / 2 }));

describe('the memory that is set aside for what is young', () => {
  it('is changed so that compiled code is still taken: the engine takes it under the same flags alone', () => {
    setNursery('report');
    const cachedData = new Script(SOURCE).createCachedData();
    let times = 0;
    // Under another name each time: what was compiled a moment ago is known without its data.
    const isTaken = (): boolean =>
      new Script(SOURCE, { cachedData, filename: `${times++}.js` }).cachedDataRejected === false;
    sweepAway();
    expect(isTaken()).toBe(true);
    setNursery('progress');
    expect(isTaken()).toBe(true);
    fitNursery(20_000);
    expect(isTaken()).toBe(false);
    expect(underFirstFlags(isTaken)).toBe(true);
    expect(isTaken()).toBe(false);
    expect(large.length).toBeGreaterThan(0);
  });
});
