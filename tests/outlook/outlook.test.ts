import { describe, expect, it } from 'vitest';
import { isNarrowband, type OutlookAssumptions, type Want } from '../../src/model/index.js';
import { outlookOf, type UnfinishedTarget } from '../../src/outlook/index.js';
import { addDays, daysBetween } from '../../src/outlook/dates.js';
import { fakeSky, type FakeNight } from './fake-sky.js';

const ASSUMPTIONS: OutlookAssumptions = {
  sunBelowDeg: -12,
  minimumAltitudeDeg: 25,
  hasHorizon: false,
  isLimitKnown: true,
  moonSeparationDeg: 40,
  deepRedSeparationDeg: 20,
  worthHours: 2,
};
const want = (filter: string, hours: number, share: number): Want => ({
  filter,
  train: null,
  hours,
  share,
  isNarrowband: isNarrowband(filter),
});
const target = (name: string, ...wants: readonly Want[]): UnfinishedTarget => ({
  name,
  place: { raDeg: 0, decDeg: 0 },
  wants,
});
const look = (night: (date: string) => FakeNight, ...targets: readonly UnfinishedTarget[]) =>
  outlookOf({
    from: '2026-12-01',
    site: 'Cierzo Hill',
    sky: fakeSky(night),
    assumptions: ASSUMPTIONS,
    targets,
    past: [],
  });

describe('the outlook', () => {
  it('knows when a season ends, target by target', () => {
    const sky = fakeSky(() => ({ darkHours: 10, target: [7, 17] }));
    const setting = { raDeg: 99, decDeg: 0 };
    const outlook = outlookOf({
      from: '2026-12-01',
      site: null,
      assumptions: ASSUMPTIONS,
      past: [],
      sky: {
        ...sky,
        at: (ms) => ({
          ...sky.at(ms),
          look: (place) =>
            place === setting && daysBetween('2026-12-01', new Date(ms).toISOString().slice(0, 10)) > 40
              ? { clearanceDeg: -1, moonSeparationDeg: 90 }
              : sky.at(ms).look(place),
        }),
      },
      targets: [target('long', want('L', 3, 0.9)), { ...target('setting', want('L', 3, 0.1)), place: setting }],
    });
    expect(outlook.targets[1]?.season).toMatchObject({
      state: 'now',
      until: expect.stringMatching(/^2027-01-(0\d|10)$/),
    });
  });

  it('looks a year ahead, and says of a target that is not up from when it is', () => {
    const back = addDays('2026-12-01', 200);
    const {
      targets: [only],
    } = look(
      (date) => ({ darkHours: 10, ...(date >= back ? { target: [7, 17] as const } : {}) }),
      target('A', want('L', 3, 0.2)),
    );
    expect(only?.nights).toHaveLength(365);
    expect(only?.season).toMatchObject({ state: 'later', from: back });
    expect(only?.estimate).toBeNull();
  });

  it('has no targets when nothing is lacking', () => {
    expect(look(() => ({ darkHours: 10 })).targets).toEqual([]);
  });
});

describe('narrowband', () => {
  it.each(['Ha', 'H-alpha', 'Hα', 'OIII', 'O3', 'SII', 'S2', 'Hb', 'NII', 'Ha 7nm', '3 nm', 'narrowband'])(
    '%s bears moonlight',
    (name) => {
      expect(isNarrowband(name)).toBe(true);
    },
  );
  it.each(['L', 'Lum', 'R', 'G', 'B', 'Halo', 'clear', 'NIR', 'S', 'Sloan', ''])('%s does not', (name) => {
    expect(isNarrowband(name)).toBe(false);
  });
  it('takes further names from the user', () => {
    expect(isNarrowband('Duo', new Set(['duo']))).toBe(true);
  });
});
