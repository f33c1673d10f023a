import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { assignTrains } from '../../src/gather/assign-trains.js';
import type { TrainConfig } from '../../src/config/index.js';
import { inferRig } from '../../src/gather/infer-rig.js';
import type { HeaderFrame } from '../../src/model/index.js';
import type { CardInput } from '../support/fits-writer.js';
import { nightledgerIn } from '../support/command-line.js';
import { writeFiles } from '../support/generator/samples.js';
import { inFull } from '../support/runs.js';
import { cleanUp, tempFolder } from '../support/temp-folder.js';
import { nightledger } from './support/child.js';
import { smallLight } from './support/small-light.js';

cleanUp();

const light = (minute: number, cards: readonly CardInput[]): Buffer =>
  smallLight(`2026-10-14T21:${String(minute).padStart(2, '0')}:00`, 60, cards);
const HERON: CardInput[] = [
  ['TELESCOP', 'heron'],
  ['INSTRUME', 'mono 26 MP'],
  ['FOCALLEN', 480],
];

/** The header that says least goes to the compiled program, which has to keep its bounds; others, in this process. */
async function answerTo(cards: readonly CardInput[], args: readonly string[], cwd: string) {
  if (inFull(false, cards.length > 0)) return nightledgerIn(cwd, ...args);
  const run = await nightledger(args, { cwd, seconds: 60 });
  expect(run.withinBounds, run.stderr).toBe(true);
  return run;
}

describe('one odd header among good ones', () => {
  it.each<[string, CardInput[]]>([
    ['nothing that tells trains apart', []],
    ['a camera alone', [['INSTRUME', 'mono 26 MP']]],
    ['a focal length alone', [['FOCALLEN', 480]]],
    ['a blank telescope', [['TELESCOP', '   ']]],
  ])('with %s is reported and set aside by report, init and archive add', async (_, cards) => {
    const session = tempFolder();
    const good = [1, 3, 5, 7].map((minute) => [`good-${minute}.fits`, light(minute, HERON)] as const);
    writeFiles(session, new Map([...good, ['odd.fits', light(9, cards)]]));
    const out = tempFolder();
    const runs = {
      report: await answerTo(cards, ['report', '.', '--out', join(out, 'report'), '--no-pdf'], session),
      init: await answerTo(cards, ['init', '.', '--print'], session),
      archive: await answerTo(cards, ['archive', 'add', '.', '--archive', join(out, 'archive')], session),
    };
    for (const [command, run] of Object.entries(runs)) {
      expect(run.status, `${command}: ${run.stderr}`).toBe(0);
      expect(run.stderr, command).toContain('1 frame belongs to no train (odd.fits) and is left out');
    }
    const record: unknown = JSON.parse(readFileSync(join(out, 'report/night.json'), 'utf8'));
    expect(record).toMatchObject({ trains: [{ id: 'heron' }], totals: [{ frames: { taken: 4 } }] });
    expect(readdirSync(join(out, 'archive'))).toContain('2026-10-14.json');
  });

  const frame = (file: string, more: Partial<HeaderFrame>): HeaderFrame =>
    ({ file, kind: 'light', sizeBytes: 1, headerHash: file, cards: {}, ...more }) as HeaderFrame;

  it('is no reason to take many frames that lack a keyword for odd ones: they are a train', () => {
    const rig = inferRig([
      ...['a', 'b', 'c'].map((file) => frame(file, { instrument: 'one' })),
      ...['d', 'e'].map((file) => frame(file, { telescope: 'wren', instrument: 'one' })),
    ]);
    expect(rig.trains.map((t) => t.match)).toEqual([{ TELESCOP: '' }, { TELESCOP: 'wren' }]);
  });

  it('that two trains of a rig file claim is reported and set aside too', () => {
    const frames = [
      frame('a', { cards: { TELESCOP: 'heron' } }),
      frame('b', { cards: { INSTRUME: 'two' } }),
      frame('odd', { cards: { TELESCOP: 'heron', INSTRUME: 'two' } }),
    ];
    const [base] = inferRig(frames).trains;
    if (!base) throw new Error('no train to begin with');
    const trains: TrainConfig[] = [
      { ...base, id: 'heron', frames: [], match: { TELESCOP: 'heron' } },
      { ...base, id: 'wren', frames: [], match: { INSTRUME: 'two' } },
    ];
    const assigned = assignTrains(frames, trains);
    expect(assigned.frames.map((f) => f.train)).toEqual(['heron', 'wren']);
    expect(assigned.warnings).toMatchObject([{ code: 'frame-of-two-trains', source: { file: 'odd' } }]);
    expect(() => assignTrains(frames.slice(1), trains)).toThrow(/odd is claimed by the trains heron and wren/);
  });
});
