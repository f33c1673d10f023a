import { describe, expect, it } from 'vitest';
import type { PixelPoint, StarReading } from '../../../src/model/index.js';
import {
  cameraTurns,
  type FrameToRegister,
  registerFrames,
  seenFixed,
  sensorFixed,
} from '../../../src/stars/registration/index.js';
import { clusterOf } from './clusters.js';
import { cameraAt, drawn, placesOf, randomOf, SENSOR, type SkyStar, shuffled, skyOf, starAt } from './drawn-sky.js';

const SCALE = 0.683;

interface Shot {
  readonly sky: readonly SkyStar[];
  readonly at: PixelPoint;
  readonly rotation?: number;
  readonly most?: number;
  readonly hot?: readonly PixelPoint[];
  readonly by?: StarReading;
}

function framesOf(shots: readonly Shot[], seed = 1): FrameToRegister[] {
  const random = randomOf(seed);
  return shots.map(({ sky, at, rotation = 0, most = 150, hot, by = 'full' }, i) => ({
    key: `f${String(i).padStart(3, '0')}`,
    startMs: 1_760_000_000_000 + i * 180_000,
    by,
    fwhm: 2.6 + (i % 5) * 0.1,
    stars: drawn(sky, {
      camera: cameraAt(at, rotation, SCALE),
      random,
      most,
      strips: by === 'strips',
      ...(hot && { hot }),
    }),
  }));
}

/** Dithers around a place, arcsec. */
function around(count: number, seed: number, middle: PixelPoint = { x: 0, y: 0 }): PixelPoint[] {
  const random = randomOf(seed);
  return Array.from({ length: count }, () => ({
    x: middle.x + (random() - 0.5) * 30,
    y: middle.y + (random() - 0.5) * 30,
  }));
}

const ONE_SKY = skyOf(11, 400);

describe('the frames of a train and target', () => {
  it('are laid on the sharpest of the frames with most stars', () => {
    const shots = around(12, 1).map((at, i): Shot => ({ sky: ONE_SKY, at, most: i === 3 || i === 5 ? 300 : 120 }));
    const { fields, unregistered } = registerFrames(framesOf(shots), SENSOR);
    expect(unregistered).toEqual([]);
    // Frame 5 is sharper (FWHM 2.6) than frame 3 (2.9).
    expect(fields.map((f) => [f.reference, f.frames.length])).toEqual([['f005', 12]]);
  });

  it('give the same answer in any order', () => {
    const frames = framesOf(around(10, 2).map((at, i) => ({ sky: ONE_SKY, at, rotation: i > 5 ? 180 : 0 })));
    const answer = registerFrames(frames, SENSOR);
    for (const seed of [3, 4]) expect(registerFrames(shuffled(frames, randomOf(seed)), SENSOR)).toEqual(answer);
    const mixed = frames.map((f) => ({ ...f, stars: shuffled(f.stars, randomOf(9)) }));
    expect(registerFrames(mixed, SENSOR)).toEqual(answer);
  });

  it('on both sides of the pier share one reference, half a turn apart', () => {
    const shots = around(10, 5).map((at, i): Shot => ({ sky: ONE_SKY, at, rotation: i >= 5 ? 180 : 0 }));
    const registered = registerFrames(framesOf(shots), SENSOR);
    const turns = registered.fields[0]?.frames.map((f) => Math.round(Math.abs(f.shift.rotation)));
    expect(new Set(turns)).toEqual(new Set([0, 180]));
    expect(cameraTurns(registered)).toEqual([]);
  });

  it('after a change of target have a reference of their own', () => {
    const other = skyOf(12, 400);
    const shots = around(14, 6).map((at, i): Shot => ({ sky: i < 8 ? ONE_SKY : other, at }));
    const { fields, unregistered } = registerFrames(framesOf(shots), SENSOR);
    expect(fields.map((f) => f.frames.length)).toEqual([8, 6]);
    expect(fields[1]?.onFirst).toBeNull();
    expect(unregistered).toEqual([]);
  });

  it('of a mosaic have a reference for each panel, and the panels know how they lie', () => {
    const panels = [...around(8, 7), ...around(7, 8, { x: 6500, y: 0 })];
    const { fields } = registerFrames(
      framesOf(panels.map((at) => ({ sky: skyOf(13, 400, 10_000), at, most: 600 }))),
      SENSOR,
    );
    expect(fields.map((f) => f.frames.length)).toEqual([8, 7]);
    // 6,500 arcsec at 0.683 px an arcsec, to within two dithers of 15.
    expect(Math.abs((fields[1]?.onFirst?.x ?? 0) + 6500 * SCALE)).toBeLessThan(25);
  });

  it('with a camera turned during the night say where and by how much', () => {
    const shots = around(12, 9).map((at, i): Shot => ({ sky: ONE_SKY, at, rotation: i < 7 ? 0 : 12.5 }));
    const turns = cameraTurns(registerFrames(framesOf(shots), SENSOR));
    expect(turns).toHaveLength(1);
    expect(turns[0]).toMatchObject({ afterKey: 'f006', atKey: 'f007' });
    expect(turns[0]?.byDeg).toBeCloseTo(12.5, 2);
  });

  it('of a dense cluster are registered', () => {
    const shots = around(6, 10).map((at): Shot => ({ sky: clusterOf(3), at, most: 800 }));
    const { fields } = registerFrames(framesOf(shots), SENSOR);
    expect(fields.map((f) => f.frames.length)).toEqual([6]);
  });
});

describe('frames with few stars', () => {
  it('are laid on the reference by way of the frames beside them, and lie where they were aimed', () => {
    // Steps of a quarter of the field: the brightest dozen of the last frames is hardly on the reference any more.
    const shots = Array.from({ length: 9 }, (_, i): Shot => {
      return { sky: ONE_SKY, at: { x: 480 * i, y: 0 }, most: i === 0 ? 150 : 14 };
    });
    const { fields } = registerFrames(framesOf(shots), SENSOR);
    const [field] = fields;
    expect(field?.reference).toBe('f000');
    expect(field?.frames.length).toBeGreaterThan(5);
    for (const { key, shift } of field?.frames ?? [])
      expect(Math.abs(shift.x + SCALE * (shots[Number(key.slice(1))]?.at.x ?? NaN)), key).toBeLessThan(1);
  });
});

describe('frames that cannot be registered say why', () => {
  it('no frames, empty fields, one bright star', () => {
    expect(registerFrames([], SENSOR)).toEqual({ fields: [], unregistered: [] });
    const [empty, lone] = framesOf([
      { sky: [], at: { x: 0, y: 0 } },
      { sky: [{ x: 0, y: 0, flux: 1e6 }], at: { x: 0, y: 0 } },
    ]);
    const night = [
      ...framesOf(
        around(5, 1).map((at) => ({ sky: ONE_SKY, at })),
        2,
      ),
    ];
    const frames = [...night, { ...empty!, key: 'empty' }, { ...lone!, key: 'lone' }];
    const { fields, unregistered } = registerFrames(frames, SENSOR);
    expect(fields[0]?.frames).toHaveLength(5);
    expect(unregistered.map((u) => [u.key, u.why]).sort()).toEqual([
      ['empty', 'too-few-stars'],
      ['lone', 'too-few-stars'],
    ]);
  });

  it('strips that hold too few stars, which a whole reading would mend', () => {
    const night = framesOf(
      around(5, 1).map((at) => ({ sky: ONE_SKY, at })),
      2,
    );
    const poor = framesOf([{ sky: ONE_SKY, at: { x: 4, y: 0 }, most: 4, by: 'strips' }])[0]!;
    const { unregistered } = registerFrames([...night, { ...poor, key: 'poor' }], SENSOR);
    expect(unregistered).toEqual([{ key: 'poor', state: 'unregistered', why: 'strips-not-enough', matched: 0 }]);
  });

  it('a night of hot pixels behind a closed cover', () => {
    const hot = placesOf(4, 60);
    const shots = around(8, 3).map((at): Shot => ({ sky: [], at, hot }));
    const { fields, unregistered } = registerFrames(framesOf(shots), SENSOR, sensorFixed(framesOf(shots)));
    expect(fields).toEqual([]);
    expect(new Set(unregistered.map((u) => u.why))).toEqual(new Set(['nothing-moved']));
  });

  it('noise that differs from frame to frame', () => {
    const random = randomOf(3);
    const frames = Array.from({ length: 6 }, (_, i): FrameToRegister => {
      const places = placesOf(Math.floor(random() * 1e9), 80);
      const stars = places.map((p) => starAt(p, 3000 + 1000 * random(), 8));
      return { key: `n${i}`, startMs: i * 1000, by: 'full', fwhm: null, stars };
    });
    expect(registerFrames(frames, SENSOR)).toMatchObject({ fields: [] });
  });
});

describe('hot pixels', () => {
  const hot = placesOf(21, 90);

  it('are distinguished from stars because they stay while the stars move', () => {
    const frames = framesOf(around(14, 4).map((at) => ({ sky: ONE_SKY, at, hot })));
    const found = sensorFixed(frames);
    const known = hot.filter((p) => found.some((q) => Math.hypot(p.x - q.x, p.y - q.y) < 1));
    expect(known.length).toBeGreaterThan(85);
    expect(found.length).toBeLessThan(hot.length + 2);
  });

  it('are not matched, not even where they outnumber the stars of a frame', () => {
    const shots = around(14, 4).map((at, i): Shot => ({ sky: ONE_SKY, at, hot, most: i % 3 === 0 ? 40 : 150 }));
    const frames = framesOf(shots);
    const { fields } = registerFrames(frames, SENSOR, sensorFixed(frames));
    const reference = shots[Number(fields[0]?.reference.slice(1))]?.at;
    expect(fields[0]?.frames).toHaveLength(14);
    for (const f of fields[0]?.frames ?? []) {
      const at = shots[Number(f.key.slice(1))]?.at;
      if (at && reference) expect(f.shift.x + SCALE * (at.x - reference.x)).toBeCloseTo(0, 0);
    }
  });

  it('do not join two targets', () => {
    const shots = around(16, 5).map((at, i): Shot => ({ sky: i < 8 ? ONE_SKY : skyOf(33, 400), at, hot }));
    const frames = framesOf(shots);
    expect(registerFrames(frames, SENSOR, sensorFixed(frames)).fields.map((f) => f.frames.length)).toEqual([8, 8]);
  });

  it('that pass for stars in four frames of ten are found once the frames lie on one another', () => {
    const random = randomOf(22);
    const shots = around(20, 6).map((at): Shot => ({ sky: ONE_SKY, at, hot: hot.filter(() => random() < 0.4) }));
    const frames = framesOf(shots);
    expect(sensorFixed(frames)).toEqual([]);
    const { fields } = registerFrames(frames, SENSOR);
    const found = seenFixed(fields, new Map(frames.map((frame) => [frame.key, frame])), SENSOR);
    const known = hot.filter((p) => found.some((q) => Math.hypot(p.x - q.x, p.y - q.y) < 1));
    expect(known.length).toBeGreaterThan(0.9 * hot.length);
    expect(found.length).toBeLessThan(hot.length + 2);
  });

  it('are none where frames of one aim alone agree', () => {
    const shots = [...around(2, 7), { x: 40, y: 0 }].flatMap((at, i) =>
      Array.from({ length: 5 }, (): Shot => ({ sky: ONE_SKY, at: { x: at.x + i, y: at.y } })),
    );
    const frames = framesOf(shots);
    const { fields } = registerFrames(frames, SENSOR);
    expect(seenFixed(fields, new Map(frames.map((frame) => [frame.key, frame])), SENSOR)).toEqual([]);
  });

  it('are distinguished from the stars of a field that was not dithered and moved once, though most frames show those', () => {
    const shots = Array.from({ length: 12 }, (_, i): Shot => {
      const at = i < 9 ? { x: 0, y: 0 } : { x: 40 + 7 * i, y: 25 };
      return { sky: ONE_SKY, at, hot: hot.slice(0, 20) };
    });
    const frames = framesOf(shots);
    const found = sensorFixed(frames);
    const isHot = (p: { x: number; y: number }): boolean => hot.some((q) => Math.hypot(p.x - q.x, p.y - q.y) < 1);
    expect(found.filter((p) => !isHot(p))).toEqual([]);
    expect(found.length).toBeGreaterThan(15);
    expect(registerFrames(frames, SENSOR, found).fields.map((f) => f.frames.length)).toEqual([12]);
  });

  it('cannot be distinguished from stars that never moved, and then no star is thrown away', () => {
    const random = randomOf(1);
    const still = Array.from({ length: 10 }, () => ({ x: (random() - 0.5) * 0.2, y: (random() - 0.5) * 0.2 }));
    const frames = framesOf(still.map((at) => ({ sky: ONE_SKY, at, hot: hot.slice(0, 10) })));
    expect(sensorFixed(frames)).toEqual([]);
    expect(registerFrames(frames, SENSOR).fields.map((f) => f.frames.length)).toEqual([10]);
  });
});
