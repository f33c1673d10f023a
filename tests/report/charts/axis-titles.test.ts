import { describe, expect, it } from 'vitest';
import { roomForTitles, withFittingTitle } from '../../../src/report/charts/axis-titles.js';

const scale = (text: string, position = 'left') => ({ type: 'linear', position, title: { display: true, text } });
const level = scale('gain, minutes of all trains together; whiskers: 10 to 90 % of the runs', 'bottom');

describe('the title of an axis', () => {
  it('stays on its line where the chart is tall enough', () => {
    const short = scale('kept, hours');
    expect(withFittingTitle(short, 130)).toBe(short);
  });

  it('has more room where nothing is written below the axis', () => {
    expect(roomForTitles([scale('kept')], 200)).toBeGreaterThan(roomForTitles([scale('kept'), level], 200));
  });

  it('is broken at the blank nearest its middle where it is not, and keeps all that was set of it', () => {
    expect(withFittingTitle(scale('focuser, steps from the first frame'), roomForTitles([level], 203))).toEqual({
      type: 'linear',
      position: 'left',
      title: { display: true, font: { lineHeight: 1.45 }, text: ['focuser, steps from', 'the first frame'] },
    });
  });

  it('has no blank to be broken at, or lies along a level axis: then it is left', () => {
    expect(withFittingTitle(scale('aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa', 'right'), 120)).toMatchObject({
      title: { text: ['aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa'] },
    });
    expect(withFittingTitle(level, 120)).toBe(level);
  });
});
