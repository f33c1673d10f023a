import { setFlagsFromString } from 'node:v8';
import { Script } from 'node:vm';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { setEngine, underNodesFlags } from '../../src/cli/engine.js';
import { inlineAsUsual } from '../../src/cli/inlining.js';
import { fitNursery, letNurseryGo, sweepAway } from '../../src/cli/nursery.js';

const SOURCE = '(function () { return 1; })';
/** A heap that is worth collecting. */
const large = Array.from({ length: 800_000 }, (_, i) => ({ i, half: i / 2 }));
/** Whether fewer calls are taken in: that is set for the versions of the engine for which it was measured. */
const isMeasured = process.versions.v8.startsWith('11.');

describe('the flags of the engine', () => {
  // The tests' own processes start with another measure than Node does.
  beforeAll(() => setFlagsFromString('--max-inlined-bytecode-size-cumulative=920'));
  afterAll(() => setFlagsFromString('--max-inlined-bytecode-size-cumulative=200'));

  it('are Node’s for as long as code is loaded: the engine takes what is compiled under the same flags alone', () => {
    const cachedData = new Script(SOURCE).createCachedData();
    let times = 0;
    // Under another name each time: what was compiled a moment ago is known without its data.
    const isTaken = (): boolean =>
      new Script(SOURCE, { cachedData, filename: `${times++}.js` }).cachedDataRejected === false;
    setEngine('report');
    expect(isTaken()).toBe(false);
    expect(underNodesFlags(isTaken)).toBe(true);
    expect(underNodesFlags(() => underNodesFlags(isTaken) && isTaken())).toBe(true);
    sweepAway();
    expect(isTaken()).toBe(false);
    expect(underNodesFlags(isTaken)).toBe(true);

    const holdAgain = letNurseryGo();
    expect(isTaken()).toBe(!isMeasured);
    holdAgain();
    const inlineLessAgain = inlineAsUsual();
    expect(isTaken()).toBe(false);
    fitNursery(20_000, 1);
    expect(isTaken()).toBe(true);
    inlineLessAgain();
    expect(isTaken()).toBe(!isMeasured);
    expect(underNodesFlags(isTaken)).toBe(true);

    setEngine('report');
    setEngine('progress');
    inlineAsUsual();
    expect(isTaken()).toBe(true);
    expect(large.length).toBeGreaterThan(0);
  });
});
