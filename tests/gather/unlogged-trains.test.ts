import { describe, expect, it } from 'vitest';
import { DEFAULT_RULES, interval, type LightFacts, type TellingEvent } from '../../src/model/index.js';
import type { TrainFrame } from '../../src/gather/assign-trains.js';
import { withUnloggedJoined, type Read } from '../../src/gather/unlogged-trains.js';

const START_MS = Date.UTC(2026, 9, 12, 20);
const CYCLE_MS = 310_000;
const beginMs = (i: number): number => START_MS + i * CYCLE_MS;

function light(train: string, file: string, startMs: number, more: Partial<LightFacts> = {}): TrainFrame {
  return {
    file,
    train,
    sizeBytes: 5760,
    headerHash: file,
    filter: 'Ha',
    exposureSeconds: 300,
    exposure: interval(startMs, startMs + 300_000),
    focalLengthMm: 480,
    ...more,
    kind: 'light',
  };
}

/** Frames of heron's first six exposures, and of six more that another computer wrote, half a second late. */
function newComputer(more: Partial<LightFacts> = {}, lateMs = 500): TrainFrame[] {
  return Array.from({ length: 12 }, (_, i) =>
    i < 6
      ? light('heron', `frames/heron/${i}.fits`, beginMs(i))
      : light('scope', `new computer/${i}.fits`, beginMs(i) + lateMs, { filter: 'H-alpha', ...more }),
  );
}

/** Heron's log begins all twelve exposures. */
const logOf = (train: string): TellingEvent[] =>
  Array.from({ length: 12 }, (_, i) => ({
    event: 'exposure-begin',
    atMs: beginMs(i),
    seconds: 300,
    filter: 'Ha',
    train,
    source: { file: `logs/${train}.log` },
  }));

function read(frames: readonly TrainFrame[], events: readonly TellingEvent[] = logOf('heron')): Read {
  const train = { frames: [], match: {}, logs: [], filterWidthsNm: {}, filterWavelengthsNm: {} };
  return {
    rig: {
      site: null,
      darkness: 'nautical',
      trains: [
        { ...train, id: 'heron', role: 'pilot' },
        { ...train, id: 'scope', role: 'companion' },
      ],
      guiding: { source: 'off-axis', train: 'scope', logs: [] },
      targets: [],
      rules: DEFAULT_RULES,
      keywords: {},
      filterAliases: {},
      origin: 'rig-file',
    },
    placed: { frames, inputs: [], warnings: [] },
    logs: {
      events,
      lineTimes: [],
      guiding: null,
      inputs: [],
      warnings: [{ code: 'log-not-found', message: 'no log matches logs/scope*.jsonl (scope)', train: 'scope' }],
    },
  };
}

describe('a train without a log whose lights begin with exposures of another’s that have no file', () => {
  it('is that train: its frames count once, and the rig file is to say so', () => {
    const { rig, placed, logs } = withUnloggedJoined(read(newComputer()));
    expect(placed.frames.map(({ train }) => train)).toEqual(Array(12).fill('heron'));
    expect(rig.trains.map(({ id, role }) => [id, role])).toEqual([['heron', 'pilot']]);
    expect(rig.guiding?.train).toBe('heron');
    expect(logs.warnings).toEqual([]);
    expect(placed.warnings).toMatchObject([{ code: 'unlogged-train-joined', train: 'heron', count: 6 }]);
    expect(placed.warnings[0]?.message).toContain(
      'remove scope and give heron frames: ["frames/heron/**", "new computer/**"] in place of match:',
    );
  });

  it('names no folders where others’ frames lie there too', () => {
    const stray = light('wren', 'new computer/wren.fits', beginMs(0), { focalLengthMm: 900 });
    const { placed } = withUnloggedJoined(read([...newComputer(), stray]));
    expect(placed.warnings[0]?.message).toContain('give heron frames: globs that find both in place of match:');
  });

  it.each<[string, Read]>([
    ['its telescope is another', read(newComputer({ focalLengthMm: 600 }))],
    ['its filter is another', read(newComputer({ filter: 'OIII' }))],
    ['its exposures begin between those of the log', read(newComputer({}, 60_000))],
    ['it exposed at once with the other', read([...newComputer(), light('scope', 'new computer/x.fits', beginMs(2))])],
    ['it has a log of its own', read(newComputer(), [...logOf('heron'), ...logOf('scope')])],
    ['the log has files for all', read([...newComputer(), ...newComputer().map((f) => ({ ...f, train: 'heron' }))])],
    ['there is no log', read(newComputer(), [])],
    ['its lights are few', read(newComputer().slice(0, 10))],
  ])('stays a train of its own where %s', (_, night) => {
    expect(withUnloggedJoined(night)).toBe(night);
  });
});
