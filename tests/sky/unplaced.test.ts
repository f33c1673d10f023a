import { describe, expect, it } from 'vitest';
import { parseRig } from '../../src/config/index.js';
import { unplacedWarnings } from '../../src/sky/unplaced.js';
import { light } from '../support/events.js';

const frames = ['21:00:00', '21:06:00'].map((begin) => ({ ...light('heron', begin, 300), target: 'M 31 panel 2' }));
const M31 = { name: 'M 31 panel 2', aliases: [], raDeg: 10.7, decDeg: 41.3, origin: 'rig-file' as const };

describe('targets without a place', () => {
  it('are asked for, with a line that a rig file takes once the place is filled in', () => {
    const [warning, ...rest] = unplacedWarnings(frames, []);
    expect(rest).toEqual([]);
    expect(warning).toMatchObject({ code: 'target-unplaced', count: 2 });
    const line = /write (- .*}) with/.exec(warning?.message ?? '')?.[1] ?? '';
    const filled = line.replace('hh:mm:ss', '00:42:44').replace('dd:mm:ss', '41:16:09');
    const { rig } = parseRig('rig.yaml', `trains:\n  - { id: heron, frames: ["**"] }\ntargets:\n  ${filled}\n`);
    expect(rig.targets.map((t) => t.name)).toEqual(['M 31 panel 2']);
  });

  it('are not asked for where the place is known, nor for frames that name none', () => {
    expect(unplacedWarnings(frames, [M31])).toEqual([]);
    expect(unplacedWarnings([{ ...light('heron', '21:00:00', 300), target: undefined }], [])).toEqual([]);
  });
});
