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

describe('the next nights', () => {
  it('take broadband without the Moon and narrowband under it, the filter that lacks most first', () => {
    const { next } = look(
      () => ({ darkHours: 10, target: [7, 17], moon: [0, 12] }),
      target('A', want('L', 3, 0.2), want('R', 2, 0.6), want('Ha', 9, 0.1), want('OIII', 1, 0.3)),
    );
    expect(next).toHaveLength(14);
    expect(next[0]).toMatchObject({
      date: '2026-12-01',
      darkHours: 10,
      moonlessHours: 5,
      withoutMoon: { target: 'A', filter: 'R', hours: 5 },
      underMoon: { target: 'A', filter: 'OIII', hours: 5 },
    });
  });

  it('take narrowband without the Moon where no broadband is lacking, and nothing under it where no narrowband is', () => {
    const night: FakeNight = { darkHours: 10, target: [7, 17], moon: [0, 12] };
    expect(look(() => night, target('A', want('Ha', 30, 0.2))).next[0]).toMatchObject({
      withoutMoon: { filter: 'Ha' },
      underMoon: { filter: 'Ha' },
    });
    expect(look(() => night, target('A', want('L', 3, 0.2))).next[0]).toMatchObject({
      withoutMoon: { filter: 'L' },
      underMoon: null,
    });
  });

  it('propose nothing that is up for less than an hour', () => {
    expect(look(() => ({ darkHours: 10, target: [7, 7.9] }), target('A', want('L', 3, 0.2))).next[0]).toMatchObject({
      withoutMoon: null,
      underMoon: null,
    });
  });

  it('use up what is planned: no filter is proposed longer than it is lacking', () => {
    const { next } = look(
      () => ({ darkHours: 10, target: [7, 17] }),
      // 7 h kept of 10 h of darkness where the archive tells nothing: one night for R, two for L, then nothing is lacking.
      target('A', want('R', 5, 0.9), want('L', 12, 0.5)),
    );
    expect(next.map((n) => n.withoutMoon?.filter ?? null).slice(0, 4)).toEqual(['R', 'L', 'L', null]);
  });

  it('prefer the target whose season ends first', () => {
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
    expect(outlook.next[0]?.withoutMoon?.target).toBe('setting');
  });
});

describe('the outlook', () => {
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

  it('has nothing to propose when nothing is lacking', () => {
    const outlook = look(() => ({ darkHours: 10 }));
    expect(outlook.targets).toEqual([]);
    expect(outlook.next.every((n) => n.withoutMoon === null && n.underMoon === null)).toBe(true);
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
