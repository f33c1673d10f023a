import { describe, expect, it } from 'vitest';
import { assignTrains } from '../../src/gather/assign-trains.js';
import { inferRig } from '../../src/gather/infer-rig.js';
import { withOneZone } from '../../src/gather/mixed-zones.js';
import type { HeaderFrame } from '../../src/model/index.js';

const DUSK_MS = Date.UTC(2026, 10, 8, 0, 20);
const HOUR_MS = 3_600_000;

/** Forty minutes of lights whose headers put the begin at `writtenMs` and state how far local time is ahead. */
function lights(folder: string, writtenMs: number, localOffsetMinutes: number | undefined, more = {}): HeaderFrame[] {
  return Array.from({ length: 12 }, (_, i): HeaderFrame => {
    const startMs = writtenMs + i * 200_000;
    const file = `${folder}/${i}.fits`;
    return {
      file,
      sizeBytes: 5760,
      headerHash: file,
      kind: 'light',
      telescope: 'finch',
      instrument: 'camera one',
      focalLengthMm: 400,
      exposure: { startMs, endMs: startMs + 180_000 },
      exposureSeconds: 180,
      ...(localOffsetMinutes === undefined ? {} : { localOffsetMinutes }),
      cards: { TELESCOP: 'finch', INSTRUME: 'camera one', FOCALLEN: 400, EXPTIME: 180 },
      ...more,
    };
  });
}

/** Of the evening, in UTC, and of three hours later by a program that writes local time, three hours behind UTC. */
const utc = lights('a', DUSK_MS, -180);
const local = lights('b', DUSK_MS, 0);

describe('headers of one camera in two zones', () => {
  it('are brought to UTC where one camera would have exposed twice at once', () => {
    const { frames, warnings } = withOneZone([...utc, ...local]);
    expect(frames.filter(({ file }) => file.startsWith('a/'))).toEqual(utc);
    for (const [i, frame] of frames.filter(({ file }) => file.startsWith('b/')).entries()) {
      expect(frame.exposure?.startMs).toBe(DUSK_MS + 3 * HOUR_MS + i * 200_000);
      expect(frame.localOffsetMinutes).toBe(-180);
    }
    expect(warnings).toMatchObject([{ code: 'header-local-time', count: 12, source: { file: 'b/0.fits' } }]);
    expect(warnings[0]?.message).toContain('UTC−3');
    expect(inferRig(frames).trains.map(({ id }) => id)).toEqual(['finch']);
    // What was moved is at one with the others.
    expect(withOneZone(frames)).toEqual({ frames, warnings: [] });
  });

  it('stay as written where that is as possible, and a warning says so', () => {
    const later = lights('b', DUSK_MS + HOUR_MS, 0);
    const { frames, warnings } = withOneZone([...utc, ...later]);
    expect(frames).toEqual([...utc, ...later]);
    expect(warnings).toMatchObject([{ code: 'header-zone-doubtful', count: 12 }]);
  });

  it('are not suspected where moving them would make the camera expose twice, nor where two cameras do', () => {
    const beforeUtc = lights('b', DUSK_MS - 3 * HOUR_MS, 0);
    expect(withOneZone([...utc, ...beforeUtc]).warnings).toEqual([]);
    const twin = [...lights('c', DUSK_MS + 7000, 0), ...lights('d', DUSK_MS + 3 * HOUR_MS, -180)];
    expect(withOneZone([...utc, ...twin]).warnings).toEqual([]);
  });

  it('are not suspected where no header tells of a zone, nor of another camera or another night', () => {
    expect(withOneZone(local).warnings).toEqual([]);
    expect(withOneZone([...lights('a', DUSK_MS, undefined), ...local]).warnings).toEqual([]);
    const other = local.map((f) => ({ ...f, instrument: 'camera two' }));
    expect(withOneZone([...utc, ...other]).warnings).toEqual([]);
    expect(withOneZone([...utc, ...lights('b', DUSK_MS + 240 * HOUR_MS, 0)]).warnings).toEqual([]);
  });
});

describe('a second program on the same computer', () => {
  /** Without TELESCOP, in the hours after. */
  const without = lights('c', DUSK_MS + 5 * HOUR_MS, undefined, {
    telescope: undefined,
    cards: { INSTRUME: 'camera one', FOCALLEN: 400 },
  });

  it('that leaves a keyword out still writes frames of the same train', () => {
    const rig = inferRig([...utc, ...without]);
    expect(rig.trains.map(({ id, match }) => [id, match])).toEqual([['finch', {}]]);
    const { frames, warnings } = assignTrains([...utc, ...without], rig.trains);
    expect([frames.length, warnings]).toEqual([24, []]);
  });

  it('joins it whatever a cut-off header leaves out', () => {
    const cutOff = lights('z', DUSK_MS + 9 * HOUR_MS, undefined, {
      telescope: undefined,
      instrument: undefined,
      focalLengthMm: undefined,
      cards: {},
    });
    const all = [...utc, ...without, ...cutOff.slice(0, 1)];
    const { frames, warnings } = assignTrains(all, inferRig(all).trains);
    expect([frames.length, warnings.map((w) => w.source?.file)]).toEqual([24, ['z/0.fits']]);
  });

  it('is distinguished from a second camera by exposing at other times', () => {
    const atOnce = lights('c', DUSK_MS, undefined, { telescope: undefined, cards: { INSTRUME: 'camera one' } });
    expect(inferRig([...utc, ...atOnce]).trains).toHaveLength(1);
    expect(assignTrains(atOnce, inferRig([...utc, ...atOnce]).trains).warnings).toMatchObject([
      { code: 'light-of-no-train', count: 12 },
    ]);
  });

  it('joins the train that it agrees with, where camera and optics tell the trains apart', () => {
    const wren = lights('d', DUSK_MS, undefined, {
      telescope: 'wren',
      focalLengthMm: 600,
      cards: { TELESCOP: 'wren', INSTRUME: 'camera one', FOCALLEN: 600 },
    });
    const { trains } = inferRig([...utc, ...wren, ...without]);
    expect(trains.map(({ match }) => match)).toEqual([{ FOCALLEN: 400 }, { FOCALLEN: 600 }]);
    const { frames } = assignTrains([...utc, ...wren, ...without], trains);
    expect(frames.filter(({ train }) => train === trains[0]?.id)).toHaveLength(24);
  });

  it('states a length under another keyword than the one that a rig file matches', () => {
    const [base] = inferRig(utc).trains;
    const byLength = { ...base!, id: 'short', match: { EXPTIME: 180 } };
    const named = utc.map((f) => ({ ...f, cards: {} }));
    expect(assignTrains(named, [byLength]).frames).toHaveLength(12);
    const longer = named.map((f) => ({ ...f, exposureSeconds: 300 }));
    expect(assignTrains(longer, [byLength]).frames).toHaveLength(0);
  });
});
