import { describe, expect, it } from 'vitest';
import { mountMotion } from '../../../src/model/judging/mount-motion.js';
import { light } from '../../support/events.js';
import { activity, around, causesBy } from './around.js';

const frame = light('wren', '21:00:00', 300);

describe('mount motion', () => {
  it('loses a frame that a dither ran into (common practice, no source)', () => {
    const causes = causesBy(
      mountMotion,
      frame,
      around({ motion: [activity('dither-move', '21:04:50', '21:04:54', { causedBy: 'heron' })] }),
    );
    expect(causes).toMatchObject([
      { kind: 'mount-motion', verdict: 'lost', overlapMs: 4000, causedBy: 'heron', sources: [{ line: 7 }] },
    ]);
    expect(causes[0]?.evidence).toContain('4 s');
  });
  it('counts settling as motion', () => {
    expect(
      causesBy(mountMotion, frame, around({ motion: [activity('settling', '20:59:50', '21:00:05')] })),
    ).toMatchObject([{ overlapMs: 5000 }]);
  });
  it('forgives a second', () => {
    expect(causesBy(mountMotion, frame, around({ motion: [activity('settling', '20:59:50', '21:00:01')] }))).toEqual(
      [],
    );
  });
  it('does not forgive short ones that add up', () => {
    const motion = [
      activity('dither-move', '21:01:00', '21:01:00.8'),
      activity('settling', '21:01:00.8', '21:01:01.6'),
    ];
    expect(causesBy(mountMotion, frame, around({ motion }))).toHaveLength(2);
  });
});
