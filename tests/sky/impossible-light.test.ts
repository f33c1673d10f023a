import { describe, expect, it } from 'vitest';
import { impossibleLight } from '../../src/sky/index.js';
import { inventedSite, M_33, ms, NGC_281 } from './invented-site.js';

/** Sunset at 40° N on 14 October is about 17:24 UTC on this longitude; civil twilight lasts half an hour. */
const isImpossible = impossibleLight(inventedSite());

describe('a light', () => {
  it('cannot be of daylight or civil twilight', () => {
    expect(isImpossible({ pointing: NGC_281 }, ms('2026-10-14T12:00:00Z'))).toBe(true);
    expect(isImpossible({ pointing: NGC_281 }, ms('2026-10-14T17:35:00Z'))).toBe(true);
    expect(isImpossible({ pointing: NGC_281 }, ms('2026-10-14T18:15:00Z'))).toBe(false);
  });

  it('cannot be of a field that has set', () => {
    // M 33 culminates at right ascension 23.5°: near midnight in October; twelve hours of sidereal time later it is below.
    expect(isImpossible({ pointing: M_33 }, ms('2026-10-15T00:00:00Z'))).toBe(false);
    expect(isImpossible({ pointing: M_33 }, ms('2026-05-01T02:00:00Z'))).toBe(true);
    expect(isImpossible({}, ms('2026-05-01T02:00:00Z'))).toBe(false);
  });

  it('may be of light nights, where it never gets darker', () => {
    const north = impossibleLight(inventedSite({ latitudeDeg: 66, longitudeDeg: 20 }));
    expect(north({ pointing: NGC_281 }, ms('2026-06-20T23:00:00Z'))).toBe(false);
  });
});
