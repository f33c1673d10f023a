import { describe, expect, it } from 'vitest';
import { mountMotion } from '../../../src/model/judging/mount-motion.js';
import { applyCause } from '../../../src/model/index.js';
import { light } from '../../support/events.js';
import { activity, around, causesBy } from './around.js';
import { stars, usual } from './measured.js';

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
  it('is cleared by stars no longer than usual where hardly any light saw the other place, on a trailed night too', () => {
    const motion = [activity('dither-move', '21:04:58', '21:05:02')];
    const trailed = { stars: stars({ elongation: 1.5, agreement: 0.98 }), usual: usual({ elongation: 1.5 }) };
    const { causes, cleared } = applyCause(mountMotion, frame, around({ motion, displacement: 0.4, ...trailed }));
    expect(causes).toEqual([]);
    expect(cleared).toMatchObject([{ kind: 'mount-motion', by: 'pixels' }]);
    expect(cleared[0]?.evidence).toContain('the stars are as on the other frames');
  });
  it('leaves a suspicion of a move that neither the guiding nor the stars saw', () => {
    const motion = [activity('dither-move', '21:04:30', '21:04:34')];
    const round = { stars: stars(), usual: usual(), isMoveUnseen: true };
    expect(causesBy(mountMotion, frame, around({ motion, ...round }))).toMatchObject([{ verdict: 'doubtful' }]);
    expect(causesBy(mountMotion, frame, around({ motion, isMoveUnseen: true }))).toMatchObject([{ verdict: 'lost' }]);
  });
  it('does not forgive short ones that add up', () => {
    const motion = [
      activity('dither-move', '21:01:00', '21:01:00.8'),
      activity('settling', '21:01:00.8', '21:01:01.6'),
    ];
    expect(causesBy(mountMotion, frame, around({ motion }))).toHaveLength(2);
  });
});
