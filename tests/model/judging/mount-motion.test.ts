import { describe, expect, it } from 'vitest';
import { mountMotion } from '../../../src/model/judging/mount-motion.js';
import { applyCause, type Displacement, type Surroundings } from '../../../src/model/index.js';
import { light } from '../../support/events.js';
import { activity, around, causesBy } from './around.js';
import { stars, usual } from './measured.js';

const frame = light('wren', '21:00:00', 300);
const seen = (drawn: number): Displacement => ({ drawn, atMost: drawn, isSeen: true });

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
    const { causes, cleared } = applyCause(mountMotion, frame, around({ motion, displacement: seen(0.4), ...trailed }));
    expect(causes).toEqual([]);
    expect(cleared).toMatchObject([{ kind: 'mount-motion', by: 'pixels' }]);
    expect(cleared[0]?.evidence).toContain('the stars are as on the other frames');
  });
  it('leaves a suspicion of a move that neither the guiding nor the stars saw', () => {
    const motion = [activity('dither-move', '21:04:30', '21:04:34')];
    const round = { stars: stars(), usual: usual() };
    const unseen = { drawn: 0, atMost: 0.04, isSeen: false };
    const hidden = { drawn: 0, atMost: 0.4, isSeen: false };
    const verdicts = (more: Partial<Surroundings>) =>
      causesBy(mountMotion, frame, around({ motion, ...more })).map(({ verdict, by }) => `${verdict} by ${by}`);
    // Each activity is a cause of its own; a guider may move its target little by little, so nothing is cleared.
    expect(verdicts({ displacement: unseen })).toEqual(['doubtful by displacement']);
    expect(verdicts({ displacement: hidden, ...round })).toEqual(['doubtful by displacement']);
    expect(verdicts({ displacement: hidden })).toEqual(['lost by displacement']);
    expect(verdicts({})).toEqual(['lost by duration']);
  });
  it('is judged by what it draws, and cleared only with the error of the samples in it', () => {
    const motion = [activity('dither-move', '21:04:30', '21:04:34')];
    const verdict = (drawn: number, atMost: number): string | undefined => {
      const applied = applyCause(mountMotion, frame, around({ motion, displacement: { drawn, atMost, isSeen: true } }));
      return applied.causes[0]?.verdict ?? applied.cleared[0]?.by;
    };
    expect([verdict(0.03, 0.04), verdict(0.03, 0.06), verdict(0.19, 0.3), verdict(0.21, 0.3)]).toEqual([
      'displacement',
      'doubtful',
      'doubtful',
      'lost',
    ]);
  });
  it('does not forgive short ones that add up', () => {
    const motion = [
      activity('dither-move', '21:01:00', '21:01:00.8'),
      activity('settling', '21:01:00.8', '21:01:01.6'),
    ];
    expect(causesBy(mountMotion, frame, around({ motion }))).toHaveLength(2);
  });
});

describe('mount motion by another computer’s clock', () => {
  // Common practice, no source.
  const within = (ms: number, ...motion: Surroundings['motion']) =>
    around({ motion: motion.slice(0, 1), leeway: { ms, motion, guidingOff: [] } });
  const verdict = (surroundings: Surroundings) => causesBy(mountMotion, frame, surroundings)[0];
  const settling = activity('settling', '20:59:50', '21:00:04');

  it('makes a frame doubtful where the clocks may be apart by as much, and says so', () => {
    const cause = verdict(within(5000, settling));
    expect(cause?.verdict).toBe('doubtful');
    expect(cause?.evidence).toContain('the clock of wren is known to 5 s here, and that alone would explain it');
  });
  it('loses it where they are known better, where it moved in the midst, and where another move is as near', () => {
    expect(verdict(within(2000, settling))?.verdict).toBe('lost');
    expect(verdict(within(5000, activity('dither-move', '21:02:00', '21:02:04')))?.verdict).toBe('lost');
    expect(verdict(within(5000, settling, activity('dither-move', '21:05:00.500', '21:05:09')))?.verdict).toBe('lost');
  });
});
