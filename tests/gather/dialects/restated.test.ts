import { describe, expect, it } from 'vitest';
import { restated } from '../../../src/gather/dialects/draft/classify/restated.js';
import { kindLike, kindsOf, rounds } from './support/kinds.js';

// Common practice, no source: a program says that it wrote a frame, and then what it found in it.
const kinds = kindsOf(
  rounds(12, 320, (from, i) => [
    [from, `written to ic1396_ha_${String(i).padStart(4, '0')}.fits`],
    [from, `written, ${600 + 7 * i} stars`],
  ]),
);
const named = kindLike(kinds, 'written to');
const again = kindLike(kinds, 'written,');

describe('a frame that is saved once', () => {
  it('is identified by the lines that name its file, not again by further details', () => {
    expect(
      restated(
        new Map([
          [named, 'frame-saved'],
          [again, 'frame-saved'],
        ]),
      ),
    ).toEqual([again]);
  });

  it('is identified by lines without a file too where those stand by themselves', () => {
    const two = kindsOf(
      rounds(12, 640, (from, i) => [
        [from, `written to ic1396_ha_${String(i).padStart(4, '0')}.fits`],
        ...[10, 20, 30, 40].map((later): [number, string] => [from + later, `quiet since ${later} s`]),
        [from + 320, `written, ${600 + 7 * i} stars`],
        ...[10, 20, 30, 40].map((later): [number, string] => [from + 320 + later, `quiet since ${later} s`]),
      ]),
    );
    expect(
      restated(
        new Map([
          [kindLike(two, 'written to'), 'frame-saved'],
          [kindLike(two, 'written,'), 'frame-saved'],
        ]),
      ),
    ).toEqual([]);
  });

  it('is identified by any line where no other names files', () => {
    expect(restated(new Map([[again, 'frame-saved']]))).toEqual([]);
    expect(
      restated(
        new Map([
          [named, 'note'],
          [again, 'frame-saved'],
        ]),
      ),
    ).toEqual([]);
  });
});
