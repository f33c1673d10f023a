import { describe, expect, it } from 'vitest';
import { withoutSeparators } from '../../../src/gather/dialects/draft/kinds/separators.js';
import { stateChange } from '../../../src/gather/dialects/draft/lexicon/state-changes.js';
import { kindsOf } from './support/kinds.js';

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
    ['focuser', 'calm -> searching', 'focus-begin'],
    ['focuser', 'searching -> focused', 'focus-end'],
    ['wheel', 'turning -> in place', 'filter-end'],
  ])('of a device that does one thing is that thing: %s %s', (source, wording, event) => {
    const [best] = [...(stateChange(wording, source) ?? [])].sort((a, b) => b[1] - a[1]);
    expect(best?.[0]).toBe(event);
  });

  it('is identified by the words behind the numbers of the states', () => {
    expect(stateChange('HER S110->S115 Filter in Position')).toBeNull();
  });

  it('ends what a device did that has come to a value', () => {
    expect([...(stateChange('wheel: turning -> #') ?? []).keys()]).toEqual(['filter-end']);
  });

  it('of two states at work tells that the second has begun first, and that the first has ended', () => {
    const [first, second] = [...(stateChange('dithering -> settling') ?? [])].sort((a, b) => b[1] - a[1]);
    expect([first?.[0], second?.[0]]).toEqual(['settling-begin', 'dither-end']);
  });

  it('into a state called after a frame that is kept begins nothing', () => {
    expect([...(stateChange('reading out -> frame saved (m33_0001.fits)', 'heron') ?? []).keys()]).toEqual([
      'frame-saved',
    ]);
  });

  it('is a wait for the dither where a camera that was still waits', () => {
    for (const wording of ['idle -> waiting  (for dither)', 'idle > queueing', 'waiting -> READY_FOR_SHIFT'])
      expect([...(stateChange(wording, 'camera') ?? [])].map(([event]) => event)).toEqual(['dither-ready']);
    expect(stateChange('waiting -> idle', 'camera')).toEqual(new Map());
    expect([...(stateChange('idle -> waiting', 'guider') ?? new Map()).keys()]).not.toContain('dither-ready');
  });

  it('is none where numbers stand before and after', () => {
    expect(stateChange('star width # -> #')).toBeNull();
    expect(stateChange('shutter closed')).toBeNull();
  });
});

describe('a bare >', () => {
  const wordings = (lines: readonly string[]): string[] =>
    withoutSeparators(kindsOf(lines.map((text, i): [number, string] => [20 * i, text]))).map(({ wording }) => wording);

  it('divides states where those that are entered are left again', () => {
    const states = ['idle > exposing', 'exposing > reading (done)', 'reading > idle'];
    expect(wordings(states)).toEqual(states);
  });

  it('sets a device off from what it says elsewhere', () => {
    expect(wordings(['guida > guida fermata', 'guida > assestata', 'camera > posa finita'])).toEqual([
      'guida : guida fermata',
      'guida : assestata',
      'camera : posa finita',
    ]);
  });
});
