import { describe, expect, it } from 'vitest';
import { inferFromGaps } from '../../src/reconstruct/gaps.js';
import type { Frame } from '../../src/model/index.js';
import { at, header, light } from '../support/events.js';

/** Three subs of 180 s with 3 s between, then a rest, over and over. */
function blocks(
  train: string,
  begin: string,
  count: number,
  restSeconds: number,
  more: (i: number) => Partial<Frame> = () => ({}),
): Frame[] {
  const frames: Frame[] = [];
  let ms = at(begin);
  for (let i = 0; i < count; i++) {
    const time = new Date(ms).toISOString().slice(11, 23);
    frames.push({ ...light(train, time, 180), ...more(i) });
    ms += 183_000 + (i % 3 === 2 ? restSeconds * 1000 : 0);
  }
  return frames;
}

describe('gaps without a log', () => {
  it('begin with the typical readout', () => {
    const readouts = inferFromGaps(
      [{ id: 'heron', frames: blocks('heron', '21:00:00', 9, 30), logged: false }],
      false,
    ).filter((a) => a.kind === 'readout');
    expect(readouts).toHaveLength(8);
    expect(readouts.every((r) => r.span.endMs - r.span.startMs === 3000 && r.certainty === 'inferred')).toBe(true);
  });

  it('are dithers when all trains rest together', () => {
    const trains = [
      { id: 'heron', frames: blocks('heron', '21:00:00', 9, 30), logged: false },
      { id: 'wren', frames: blocks('wren', '21:00:10', 9, 30), logged: false },
    ];
    const moves = inferFromGaps(trains, false).filter((a) => a.kind === 'dither-move');
    // Both rest from wren's readout (10 s after heron's) until heron begins again.
    expect(moves.map((m) => m.span.endMs - m.span.startMs)).toEqual([20_000, 20_000]);
    expect(moves.every((m) => m.train === undefined)).toBe(true);
  });

  it('are dithers of a single train when they recur', () => {
    const moves = inferFromGaps(
      [{ id: 'heron', frames: blocks('heron', '21:00:00', 12, 30), logged: false }],
      false,
    ).filter((a) => a.kind === 'dither-move');
    expect(moves).toHaveLength(3);
  });

  it('are a filter change, a refocus or a slew when the headers changed', () => {
    const frames = blocks('heron', '21:00:00', 9, 40, (i) => ({
      filter: i < 3 ? 'L' : 'R',
      header: header('x', '21:00:00', 180, { focusPosition: i < 6 ? 1000 : 980 }),
    }));
    expect(
      inferFromGaps([{ id: 'heron', frames, logged: false }], false)
        .filter((a) => a.kind !== 'readout')
        .map((a) => a.kind),
    ).toEqual(['filter', 'focus']);
    const moved = blocks('heron', '21:00:00', 6, 90, (i) => ({ target: i < 3 ? 'M 33' : 'NGC 281' }));
    expect(
      inferFromGaps([{ id: 'heron', frames: moved, logged: false }], false)
        .filter((a) => a.kind !== 'readout')
        .map((a) => a.kind),
    ).toEqual(['slew']);
  });

  it('are a slew for as long as the way takes, at their end; what lies before is unexplained', () => {
    const aim = (raDeg: number, pierSide?: 'east' | 'west') => ({ pointing: { raDeg, decDeg: 0 }, pierSide });
    const slewOf = (restSeconds: number, ...more: readonly Partial<Frame>[]) => {
      const frames = blocks('heron', '21:00:00', 6, restSeconds, (i) => more[i < 3 ? 0 : 1] ?? {});
      const [first] = inferFromGaps([{ id: 'heron', frames, logged: false }], false).filter(
        (a) => a.kind !== 'readout',
      );
      const next = frames[3]?.exposure.startMs;
      return (
        first && {
          kind: first.kind,
          seconds: (first.span.endMs - first.span.startMs) / 1000,
          next,
          to: first.span.endMs,
        }
      );
    };
    const toward = (raDeg: number, pierSide?: 'east' | 'west') => ({
      header: header('x', '21:00:00', 180, aim(raDeg, pierSide)),
    });
    const far = slewOf(1500, toward(10), toward(70));
    expect(far).toMatchObject({ kind: 'slew', seconds: 60 + 300 });
    expect(far?.to).toBe(far?.next);
    // As long as the gap where that is shorter; half a turn where headers have no places, and where the mount flips.
    expect(slewOf(90, toward(10), toward(70))?.seconds).toBe(90);
    expect(slewOf(1500, { target: 'M 33' }, { target: 'NGC 281' })?.seconds).toBe(180 + 300);
    // Another name at one place is no other place.
    expect(slewOf(90, { target: 'M 33', ...toward(10) }, { target: 'NGC 598', ...toward(10.01) })?.kind).not.toBe(
      'slew',
    );
    expect(slewOf(90, { target: 'M 33', ...toward(10) }, { target: 'NGC 604', ...toward(10.15) })?.kind).toBe('slew');
    expect(slewOf(1500, toward(10, 'east'), toward(10, 'west'))).toMatchObject({ kind: 'flip', seconds: 180 + 300 });
  });

  it('are no dithers where a frame is missing: sorted out before the report', () => {
    const subs = blocks('heron', '21:00:00', 30, 0);
    const short = subs.map((f, i) => ({ ...f, exposure: { startMs: i * 63_000, endMs: i * 63_000 + 60_000 } }));
    const kept = short.filter((_, i) => ![4, 9, 15, 21, 22].includes(i));
    expect(inferFromGaps([{ id: 'heron', frames: kept, logged: false }], false)).not.toContainEqual(
      expect.objectContaining({ kind: 'dither-move' }),
    );
  });

  it('are no dithers between flats', () => {
    const flats = blocks('heron', '17:00:00', 12, 30, () => ({ kind: 'flat' }));
    const found = inferFromGaps([{ id: 'heron', frames: flats, logged: false }], false);
    expect(found.filter((a) => a.kind === 'dither-move')).toEqual([]);
  });

  it('are a slew only while no train exposed, whose stars would show it', () => {
    const target = (i: number) => ({ target: i < 3 ? 'M 31' : 'M 33' });
    const trains = [
      { id: 'heron', frames: blocks('heron', '21:00:00', 6, 60, target), logged: false },
      // Its last sub of the first field ends 10 s later, and its first of the next begins 30 s later.
      { id: 'wren', frames: blocks('wren', '21:00:10', 6, 80, target), logged: false },
    ];
    const slews = inferFromGaps(trains, false).filter((a) => a.kind === 'slew');
    expect(slews).toHaveLength(2);
    for (const { span } of slews)
      for (const { exposure } of trains.flatMap((t) => t.frames))
        expect(span.startMs >= exposure.endMs || span.endMs <= exposure.startMs).toBe(true);
  });

  it('stay unexplained when nothing explains them', () => {
    const frames = [light('heron', '21:00:00', 180), light('heron', '21:03:03', 180), light('heron', '21:59:00', 180)];
    expect(inferFromGaps([{ id: 'heron', frames, logged: false }], false).map((a) => a.kind)).toEqual([
      'readout',
      'readout',
    ]);
  });

  it('are left to the log where there is one', () => {
    const kinds = inferFromGaps([{ id: 'heron', frames: blocks('heron', '21:00:00', 9, 30), logged: true }], true).map(
      (a) => a.kind,
    );
    expect(new Set(kinds)).toEqual(new Set(['readout']));
  });
});
