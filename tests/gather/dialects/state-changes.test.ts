import { describe, expect, it } from 'vitest';
import { stateChange } from '../../../src/gather/dialects/draft/lexicon/state-changes.js';

describe('a change of state', () => {
  it.each([
    ['camera idle → exposing', 'exposure-begin'],
    ['Kamera BELICHTET → frei', 'exposure-end'],
    ['mount tracking -> slewing', 'slew-begin'],
    ['导星 导星中 → 等待稳定', 'settling-begin'],
    ['guider settling => guiding', 'settling-end'],
    ['Leitauge LEITET → RUHT', 'guiding-rest-begin'],
  ])('begins what it enters, ends what it leaves: %s', (wording, event) => {
    const [best] = [...(stateChange(wording) ?? [])].sort((a, b) => b[1] - a[1]);
    expect(best?.[0]).toBe(event);
  });

  it.each([
    ['wheel', 'IDLE -> SPINNING', 'filter-begin'],
    ['focuser', 'sweeping -> idle', 'focus-end'],
    ['camera', 'idle -> exposing', 'exposure-begin'],
    ['mount', 'resting -> centring', 'centre-begin'],
    ['focuser', 'still -> sweeping', 'focus-begin'],
  ])('of a device that does one thing is that thing: %s %s', (source, wording, event) => {
    const [best] = [...(stateChange(wording, source) ?? [])].sort((a, b) => b[1] - a[1]);
    expect(best?.[0]).toBe(event);
  });

  it('is told by the words behind the numbers of the states', () => {
    expect(stateChange('HER S110->S115 Filter in Position')).toBeNull();
  });

  it('ends what a device did that has come to a value', () => {
    expect([...(stateChange('wheel: turning -> #') ?? []).keys()]).toEqual(['filter-end']);
  });

  it('of two states at work tells that the second has begun first, and that the first has ended', () => {
    const [first, second] = [...(stateChange('dithering -> settling') ?? [])].sort((a, b) => b[1] - a[1]);
    expect([first?.[0], second?.[0]]).toEqual(['settling-begin', 'dither-end']);
  });

  it('is none where numbers stand before and after', () => {
    expect(stateChange('star width # -> #')).toBeNull();
    expect(stateChange('shutter closed')).toBeNull();
  });
});
