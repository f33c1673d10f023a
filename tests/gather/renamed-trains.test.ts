import { describe, expect, it } from 'vitest';
import { parseRig, starterYaml } from '../../src/config/index.js';
import { assignTrains } from '../../src/gather/assign-trains.js';
import { inferenceWarnings, inferRig } from '../../src/gather/infer-rig.js';
import { interval, type HeaderFrame } from '../../src/model/index.js';

const START_MS = Date.UTC(2026, 9, 12, 20);
const CYCLE_MS = 310_000;

/** A light that says by itself which telescope it is from, and nothing of a train. */
function light(telescope: string, i: number, more: Partial<HeaderFrame> = {}): HeaderFrame {
  const startMs = START_MS + i * CYCLE_MS;
  return {
    file: `in/${telescope.split(' ')[0] ?? ''}_${String(i).padStart(4, '0')}.fits`,
    sizeBytes: 5760,
    headerHash: `${telescope}${i}`,
    filter: 'L',
    exposureSeconds: 300,
    exposure: interval(startMs, startMs + 300_000),
    focalLengthMm: 480,
    telescope,
    instrument: 'mono 26 MP',
    cards: { TELESCOP: telescope, INSTRUME: 'mono 26 MP' },
    kind: 'light',
    ...more,
  } as HeaderFrame;
}

const rows = (telescope: string, from: number, to: number, more: Partial<HeaderFrame> = {}): HeaderFrame[] =>
  Array.from({ length: to - from }, (_, k) => light(telescope, from + k, more));

/** Wren rides along all night. */
const WREN = rows('wren', 0, 24, { focalLengthMm: 600 });
const renamed = (more: Partial<HeaderFrame> = {}): HeaderFrame[] => [
  ...rows('heron', 0, 12),
  ...rows('heron new', 12, 24, more),
];

describe('a telescope that headers call by another name from some frame on', () => {
  it('is one train, beside another that saw both, and the rig file has both names', () => {
    const frames = [...renamed(), ...WREN];
    const rig = inferRig(frames);
    expect(rig.trains.map(({ id, match }) => [id, match])).toEqual([
      ['wren', { TELESCOP: 'wren' }],
      ['heron', { TELESCOP: ['heron', 'heron new'] }],
    ]);
    expect(inferenceWarnings(frames)).toMatchObject([
      {
        code: 'train-renamed',
        message: expect.stringContaining('“heron” in 12 lights and “heron new” in the 12 after'),
      },
    ]);
    const assigned = assignTrains(frames, rig.trains).frames;
    expect(assigned.filter(({ train }) => train === 'heron')).toHaveLength(24);
    const yaml = starterYaml(rig, {
      frames: {},
      filters: {},
      unplaced: [],
      logs: [],
      ownFormat: [],
      dialects: {},
      owners: {},
    });
    expect(yaml).toContain('match: { TELESCOP: [ "heron", "heron new" ] }');
    expect(parseRig('rig.yaml', yaml).rig.trains.map(({ match }) => match)).toEqual(rig.trains.map((t) => t.match));
  });

  it('is one alone where the files’ numbers go on', () => {
    const numbered = renamed().map((f, i) => ({ ...f, file: `night/img_${i}.fits` }));
    expect(inferRig(numbered).trains).toHaveLength(1);
    const anew = renamed().map((f, i) => ({ ...f, file: `night/img_${i % 12}.fits` }));
    expect(inferRig(anew).trains).toHaveLength(2);
  });

  it.each<[string, HeaderFrame[]]>([
    ['its focal length is another', [...renamed({ focalLengthMm: 360 }), ...WREN]],
    ['its camera has another name too', [...renamed({ instrument: 'mono 9 MP' }), ...WREN]],
    ['both expose at once', [...rows('heron', 0, 24), ...rows('heron new', 0, 24), ...WREN]],
    [
      'its camera has another serial number',
      [
        ...rows('heron', 0, 12, { cards: { TELESCOP: 'heron', SERIALNO: '1' } }),
        ...rows('heron new', 12, 24, { cards: { TELESCOP: 'heron new', SERIALNO: '2' } }),
        ...WREN,
      ],
    ],
  ])('is a train of its own where %s', (_, frames) => {
    expect(inferRig(frames).trains).toHaveLength(3);
    expect(inferenceWarnings(frames)).toEqual([]);
  });
});

describe('match: in the rig file', () => {
  it('takes a list of which one value will do, and says what is wrong with one', () => {
    const rig = (match: string) => `trains: [ { id: heron, match: ${match} } ]`;
    const { trains } = parseRig('rig.yaml', rig('{ TELESCOP: [ heron, 80 ] }')).rig;
    const frames = [light('Heron ', 0), light('80', 1), light('81', 2)];
    expect(assignTrains(frames, trains).frames).toHaveLength(2);
    expect(() => parseRig('rig.yaml', rig('{ TELESCOP: [] }'))).toThrow('match');
    expect(() => parseRig('rig.yaml', rig('{ TELESCOP: { a: 1 } }'))).toThrow('or a list of them');
  });
});
