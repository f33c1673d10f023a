import { describe, expect, it } from 'vitest';
import { guidingOff } from '../../../src/model/judging/guiding-off.js';
import { light } from '../../support/events.js';
import { activity, around, causesBy } from './around.js';

const frame = light('wren', '21:00:00', 300);

describe('guiding off', () => {
  it('paused for the other train’s refocus loses the open frame and names who did it (common practice, no source)', () => {
    const pause = activity('guiding-rest', '21:01:00', '21:02:30', { causedBy: 'heron', why: 'refocus' });
    const [cause] = causesBy(guidingOff, frame, around({ guidingOff: [pause] }));
    expect(cause).toMatchObject({ verdict: 'lost', overlapMs: 90_000, causedBy: 'heron' });
    expect(cause?.evidence).toBe(
      'guiding was paused by heron (refocus) for 1 min 30 s of the exposure (lost above 15 s)',
    );
  });
  it('for a short while makes it doubtful', () => {
    expect(
      causesBy(guidingOff, frame, around({ guidingOff: [activity('star-gap', '21:01:00', '21:01:12')] })),
    ).toMatchObject([{ verdict: 'doubtful' }]);
  });
  it('for no longer than the notice leaves the frame as it is', () => {
    const off = (end: string) =>
      causesBy(guidingOff, frame, around({ guidingOff: [activity('star-gap', '21:01:00', end)] }));
    expect(off('21:01:02')).toEqual([]);
    expect(off('21:01:02.1')).toMatchObject([{ verdict: 'doubtful' }]);
  });
  it('is limited by the grace on short exposures and by the share on long ones', () => {
    const off = [activity('star-gap', '21:00:10', '21:00:22')];
    expect(causesBy(guidingOff, light('wren', '21:00:00', 60), around({ guidingOff: off }))).toMatchObject([
      { verdict: 'lost' },
    ]);
    expect(causesBy(guidingOff, light('wren', '21:00:00', 600), around({ guidingOff: off }))).toMatchObject([
      { verdict: 'doubtful' },
    ]);
  });
  it('adds stretches up', () => {
    const off = [activity('star-gap', '21:01:00', '21:01:09'), activity('star-gap', '21:03:00', '21:03:09')];
    expect(causesBy(guidingOff, frame, around({ guidingOff: off })).map((c) => c.verdict)).toEqual(['lost', 'lost']);
  });
  it('is not assessed when no log speaks of guiding', () => {
    expect(causesBy(guidingOff, frame, around({ guidingOff: null }))).toEqual([]);
  });
});
