import { describe, expect, it } from 'vitest';
import { parseRig } from '../../src/config/index.js';
import { placedAsBefore, placedByHeaders } from '../../src/gather/target-places.js';
import type { HeaderFrame, Target } from '../../src/model/index.js';

const rigOf = (targets: string) => parseRig('rig.yaml', `trains: [ { id: heron } ]\ntargets: ${targets}\n`).rig;
const light = (target: string, raDeg: number, decDeg: number): HeaderFrame =>
  ({ file: `${target}.fits`, target, pointing: { raDeg, decDeg } }) as HeaderFrame;

describe('targets that the rig file gives no place', () => {
  const rig = rigOf(
    '[ { name: Heart, aliases: [IC 1805], goals: { Ha: 9h } }, { name: M 31, ra: 10.68, dec: 41.27 } ]',
  );

  it('stand where the headers of their frames point, under any of their names and across 0 h', () => {
    const frames = [light('IC1805', 359.9, 61.4), light('heart', 0.1, 61.5), light('IC 1805', 0.2, 61.6)];
    const { rig: placed, warnings } = placedByHeaders(rig, [...frames, light('M 33', 23, 30)]);
    expect(warnings).toEqual([]);
    expect(placed.unplaced).toBeUndefined();
    const heart = placed.targets.find(({ name }) => name === 'Heart');
    expect(heart).toMatchObject({ origin: 'headers', decDeg: 61.5, goals: { hours: { Ha: 9 } } });
    expect(heart?.raDeg).toBeCloseTo(0.1, 9);
    // What the rig file states counts, whatever headers say.
    expect(placed.targets.find(({ name }) => name === 'M 31')).toMatchObject({ raDeg: 10.68, origin: 'rig-file' });
  });

  it('are said to be left out where no header places them', () => {
    const { rig: placed, warnings } = placedByHeaders(rig, [light('M 31', 10, 41)]);
    expect(placed.targets.map(({ name }) => name)).toEqual(['M 31']);
    expect(warnings).toMatchObject([{ code: 'target-without-place', message: expect.stringContaining('Heart') }]);
    expect(warnings[0]?.message).toContain('with its goals');
  });

  it('keep the place that they had where a night is judged again', () => {
    const before: Target = { name: 'IC 1805', aliases: [], raDeg: 38.2, decDeg: 61.5, origin: 'headers' };
    const { targets } = placedAsBefore(rig, [before]);
    expect(targets.find(({ name }) => name === 'Heart')).toMatchObject({ raDeg: 38.2, decDeg: 61.5 });
  });
});
