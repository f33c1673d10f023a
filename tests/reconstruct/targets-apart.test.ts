import { describe, expect, it } from 'vitest';
import type { Target } from '../../src/model/index.js';
import { targetsApart } from '../../src/reconstruct/targets-apart.js';
import { light } from '../support/events.js';

const of = (train: string, target: string) => light(train, '21:00:00', 300, { target });
const at = (name: string, raDeg: number, decDeg: number): Target => ({
  name,
  aliases: [],
  raDeg,
  decDeg,
  origin: 'headers',
});

describe('a target under two names', () => {
  const andromeda = [at('NGC 224', 10.6847, 41.2688), at('Andromeda', 10.6846, 41.269)];

  it('is reported with the line that makes it one', () => {
    const found = targetsApart([of('heron', 'NGC 224'), of('wren', 'Andromeda')], andromeda);
    expect(found).toMatchObject([{ code: 'targets-apart' }]);
    expect(found[0]?.message).toContain('“NGC 224” (heron) and “Andromeda” (wren) lie at the same position');
    expect(found[0]?.message).toContain('{ name: "NGC 224", aliases: [ "Andromeda" ], ra: 10.6847, dec: 41.2688 }');
    const [first, second] = andromeda;
    if (!first || !second) throw new Error('no pair');
    const more = [
      { ...first, aliases: ['M 31'] },
      { ...second, aliases: ['And'] },
    ];
    expect(targetsApart([of('heron', 'NGC 224'), of('wren', 'Andromeda')], more)[0]?.message).toContain(
      'aliases: [ "M 31", "Andromeda", "And" ]',
    );
  });

  it('may be two on purpose where one train has both, and is two where they lie apart', () => {
    expect(targetsApart([of('heron', 'NGC 224'), of('heron', 'Andromeda')], andromeda)).toEqual([]);
    // M 81 and M 82 lie 37′ apart.
    const pair = [at('M 81', 148.888, 69.065), at('M 82', 148.968, 69.68)];
    expect(targetsApart([of('heron', 'M 81'), of('wren', 'M 82')], pair)).toEqual([]);
  });
});
