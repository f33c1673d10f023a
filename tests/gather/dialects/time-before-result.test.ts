import { describe, expect, it } from 'vitest';
import { timeCell } from '../../../src/gather/dialects/draft/kinds/time-cells.js';

const cell = (texts: readonly string[]): ReturnType<typeof timeCell> =>
  timeCell(
    texts.map((text, i) => ({ fields: new Map([['saved', text]]), line: i + 1, atMs: i })),
    'saved',
  );

describe('a field with a time and what it is of', () => {
  it.each([
    ['a time of day', '21:08:14', '21:09:15'],
    ['seconds since 1970', '1796838393.1', '1796838816.2'],
    ['milliseconds since 1970', '1796838393100', '1796838816200'],
  ])('is both where the time is %s', (_, first, second) => {
    const found = cell([`${first}  wren_1.fits`, `${second}  wren_2.fits`]);
    expect(found?.time).toMatchObject({ type: 'clock', perLine: [first, second] });
    expect(found?.rest).toMatchObject({ type: 'file', perLine: ['wren_1.fits', 'wren_2.fits'] });
    if (found == null) return;
    const pattern = new RegExp(
      found.pattern(
        new Map([
          [found.time, 'at'],
          [found.rest, 'file'],
        ]),
      ),
      'u',
    );
    expect(pattern.exec(`${second}  wren_2.fits`)?.groups).toEqual({ at: second, file: 'wren_2.fits' });
  });

  it.each([
    ['other numbers', '12302 star 4.0 px', '12357 star 2.2 px'],
    ['times of two forms', '21:08:14 wren_1.fits', '1796838816.2 wren_2.fits'],
    ['times alone', '1796838393.1', '1796838816.2'],
  ])('is none with %s', (_, first, second) => {
    expect(cell([first, second])).toBeNull();
  });
});
