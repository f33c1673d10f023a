import { Script } from 'node:vm';
import { describe, expect, it } from 'vitest';
import { fitNursery, setNursery, sweepAway, underNodesFlags } from '../../src/cli/nursery.js';

const SOURCE = '(function () { return 1; })';
/** A heap that is worth collecting. */
const large = Array.from({ length: 800_000 }, (_, i) => ({ i, half: i / 2 }));

describe('the memory that is set aside for what is young', () => {
  it('is left for as long as code is loaded: the engine takes what is compiled under the same flags alone', () => {
    const cachedData = new Script(SOURCE).createCachedData();
    let times = 0;
    // Under another name each time: what was compiled a moment ago is known without its data.
    const isTaken = (): boolean =>
      new Script(SOURCE, { cachedData, filename: `${times++}.js` }).cachedDataRejected === false;
    setNursery('report');
    expect(isTaken()).toBe(false);
    expect(underNodesFlags(isTaken)).toBe(true);
    expect(underNodesFlags(() => underNodesFlags(isTaken) && isTaken())).toBe(true);
    sweepAway();
    expect(isTaken()).toBe(false);
    expect(underNodesFlags(isTaken)).toBe(true);
    fitNursery(20_000, 1);
    expect(isTaken()).toBe(true);
    setNursery('report');
    setNursery('progress');
    expect(isTaken()).toBe(true);
    expect(large.length).toBeGreaterThan(0);
  });
});
