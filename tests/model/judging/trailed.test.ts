import { describe, expect, it } from 'vitest';
import { judgeFrame } from '../../../src/model/index.js';
import { trailed } from '../../../src/model/judging/trailed.js';
import { light } from '../../support/events.js';
import { activity, around, causesBy } from './around.js';
import { stars, usual } from './measured.js';

const frame = light('wren', '21:00:00', 300);
const drawnOut = (elongation: number, agreement = 0.95) => stars({ elongation, agreement });
const refocus = activity('guiding-rest', '21:01:00', '21:01:48', { causedBy: 'heron', why: 'refocus' });

// Limits: common practice, no source.
describe('trailed stars', () => {
  it('lose a frame above 1.6 and 1.4 times the usual, and make it doubtful above 1.25 and 1.2 times', () => {
    const verdict = (elongation: number, usually: number) =>
      causesBy(trailed, frame, around({ stars: drawnOut(elongation), usual: usual({ elongation: usually }) }))[0]
        ?.verdict;
    expect(verdict(1.7, 1.08)).toBe('lost');
    expect(verdict(1.5, 1.08)).toBe('doubtful');
    expect(verdict(1.24, 1.08)).toBeUndefined();
    // Optics that always draw: 1.7 is no more than 1.4 × 1.3.
    expect(verdict(1.7, 1.3)).toBe('doubtful');
    expect(verdict(1.5, 1.3)).toBeUndefined();
  });

  it('are not seen in stars that do not agree in direction, nor in too few of them', () => {
    const of = (measured: ReturnType<typeof stars>) =>
      causesBy(trailed, frame, around({ stars: measured, usual: usual() }));
    expect(of(drawnOut(2, 0.5))).toEqual([]);
    expect(of({ ...drawnOut(2), count: 9 })).toEqual([]);
    expect(of({ ...drawnOut(2), count: 10 })).toHaveLength(1);
  });

  it('name the train whose refocus drew them, and stand for the guiding that was off', () => {
    const judged = judgeFrame(frame, around({ guidingOff: [refocus], stars: drawnOut(1.9), usual: usual() }));
    expect(judged.causes).toMatchObject([
      { kind: 'trailed', by: 'pixels', verdict: 'lost', causedBy: 'heron', overlapMs: 48_000 },
    ]);
    expect(judged.causes[0]?.evidence).toContain('paused by heron (refocus) for 48 s');
    expect(judged.cleared).toEqual([]);
  });

  it('with a bright core are lost by the trail that the guiding samples know of, and never by the samples alone', () => {
    const movement = (drawn: number) => ({ drawn, atMost: drawn, isSeen: true });
    const verdict = (elongation: number, drawn: number) =>
      causesBy(
        trailed,
        frame,
        around({ stars: drawnOut(elongation), usual: usual({ elongation: 1.08 }), displacement: movement(drawn) }),
      )[0]?.verdict;
    // 1 / (1 − 0.4) = 1.67 and 1 / (1 − 0.3) = 1.43: above and below the limit of 1.6.
    expect([verdict(1.4, 0.4), verdict(1.4, 0.3), verdict(1.1, 0.4)]).toEqual(['lost', 'doubtful', undefined]);
  });

  it('say nothing without a usual', () => {
    expect(causesBy(trailed, frame, around({ stars: drawnOut(3), usual: null }))).toEqual([]);
  });
});
