import { describe, expect, it } from 'vitest';
import { assignTrains } from '../../src/gather/assign-trains.js';
import { inferenceWarnings, inferRig } from '../../src/gather/infer-rig.js';
import { overlapsOf, overlapWarnings, splitOf } from '../../src/gather/self-overlap.js';
import type { HeaderFrame } from '../../src/model/index.js';

const START_MS = Date.UTC(2026, 9, 14, 20);

/** Two identical cameras on one mount, each with its own cadence. */
function twins(file: (train: 0 | 1, i: number) => string, more: (train: 0 | 1) => Partial<HeaderFrame> = () => ({})) {
  return ([0, 1] as const).flatMap((train) =>
    Array.from({ length: 10 }, (_, i): HeaderFrame => {
      const seconds = train === 0 ? 300 : 240;
      const startMs = START_MS + train * 7000 + i * (seconds * 1000 + 4000);
      return {
        file: file(train, i),
        sizeBytes: 5760,
        headerHash: file(train, i),
        kind: 'light',
        telescope: 'refractor',
        instrument: 'mono 26 MP',
        focalLengthMm: 480,
        exposure: { startMs, endMs: startMs + seconds * 1000 },
        exposureSeconds: seconds,
        cards: { TELESCOP: 'refractor', INSTRUME: 'mono 26 MP', FOCALLEN: 480 },
        ...more(train),
      };
    }),
  );
}

const folders = twins((train, i) => `NGC 281/${train === 0 ? 'left' : 'right'}/Ha_${i}.fits`);

describe('two trains in one', () => {
  it('are distinguished by the folder, and named by it', () => {
    const rig = inferRig(folders);
    expect(rig.trains.map((t) => t.id)).toEqual(['left', 'right']);
    const { frames, warnings } = assignTrains(folders, rig.trains);
    expect(warnings).toEqual([]);
    for (const { id } of rig.trains) expect(overlapsOf(frames.filter((f) => f.train === id))).toEqual([]);
    expect(inferenceWarnings(folders)[0]?.message).toMatch(
      /cannot expose twice at once.*by folder \(left: 10, right: 10\)/,
    );
  });

  it('are not proved by one copy whose header is damaged', () => {
    const [first, ...others] = folders.filter((f) => f.file.includes('left')).map((f) => ({ ...f, train: 'left' }));
    const copy = { ...first!, file: 'NGC 281/left/copy.fits', headerHash: 'cut' };
    expect(overlapWarnings([first!, copy, ...others])).toEqual([]);
  });

  it('are not two targets that one camera took in turn, whose clock was set between them', () => {
    const inTurn = twins((train, i) => `lights/${train === 0 ? 'M33' : 'NGC281'}_${i}.fits`).map((frame, i) => {
      const startMs = START_MS + i * 304_000 - (i < 10 ? 0 : 700_000);
      return { ...frame, exposure: { startMs, endMs: startMs + 300_000 } };
    });
    expect(overlapsOf(inTurn).length).toBeGreaterThan(1);
    const more = [0, 1].flatMap((again) =>
      inTurn.map((frame, i) => {
        const moveMs = 304_000 * 10 * (i < 10 ? -1 - again : 1 + again);
        const [startMs, endMs] = [frame.exposure.startMs + moveMs, frame.exposure.endMs + moveMs];
        return {
          ...frame,
          file: frame.file.replace('_', `_${again}`),
          headerHash: `${again}-${i}`,
          exposure: { startMs, endMs },
        };
      }),
    );
    expect(splitOf([...inTurn, ...more])).toBeNull();
  });

  it('are distinguished by a part of the file name', () => {
    const frames = twins((train, i) => `lights/NGC281_Ha_${train === 0 ? 'A' : 'B'}_${i}.fits`);
    expect(splitOf(frames)).toMatchObject({ by: 'file name', groups: [{ mark: 'A' }, { mark: 'B' }] });
    const rig = inferRig(frames);
    expect(assignTrains(frames, rig.trains).frames.map((f) => f.train)).toEqual(
      frames.map((f) => (f.file.includes('_A_') ? 'a' : 'b')),
    );
  });

  it('are distinguished by the serial number, then by the length of exposure', () => {
    const name = (train: 0 | 1, i: number) => `${train * 10 + i}.fits`;
    const serials = twins(name, (train) => ({
      cards: { SERIALNO: train === 0 ? 'one' : 'two' },
      exposureSeconds: 300,
    }));
    expect(splitOf(serials)?.by).toBe('serial number');
    expect(splitOf(twins(name))).toMatchObject({
      by: 'exposure length',
      groups: [{ mark: '300' }, { mark: '240' }],
      unit: 's',
    });
  });

  it('are warned of where a rig file makes one of them, with the frames and the likely split', () => {
    const [warning] = overlapWarnings(folders.map((f) => ({ ...f, train: 'heron' })));
    expect(warning).toMatchObject({ code: 'train-overlaps-itself' });
    expect(warning?.message).toContain('NGC 281/left/Ha_0.fits and NGC 281/right/Ha_0.fits');
    expect(warning?.message).toContain('frames: [ "*/left/**" ] and frames: [ "*/right/**" ]');
  });

  it('are not seen in one train, nor in copies of its files, nor in begins written to the second', () => {
    const one = folders.slice(0, 10);
    expect(splitOf(one)).toBeNull();
    expect(
      overlapWarnings(
        [...one, ...one.map((f) => ({ ...f, file: `backup/${f.file}` }))].map((f) => ({ ...f, train: 'heron' })),
      ),
    ).toEqual([]);
    const rounded = one.map((f, i) => ({
      ...f,
      exposure: { startMs: START_MS + i * 299_000, endMs: START_MS + i * 299_000 + 300_000 },
    }));
    expect(overlapsOf(rounded)).toEqual([]);
  });
});
