import { describe, expect, it } from 'vitest';
import { LEFT_OUT, type Cause, type Finding } from '../../../src/model/index.js';
import { withoutPromises } from '../../../src/findings/never-dark.js';
import { viewContext } from '../../../src/report/html/view/context.js';
import { tonightView } from '../../../src/report/html/view/tonight.js';
import { altered } from '../../support/altered.js';
import { namedNight } from '../../support/nights.js';

const finding = (id: string, winMs: number | undefined): Finding => ({
  id,
  title: `${id} was seen`,
  costMs: 1,
  evidence: [],
  advice: `Do ${id} first. Then see.`,
  confidence: 'high',
  ...(winMs === undefined ? {} : { winMs }),
});
const view = (ranked: readonly Finding[]) =>
  tonightView(
    viewContext(altered(namedNight('twin-night'), { findings: { ranked } })),
    ranked.map(({ id }, index) => `${id}-${index}`),
  );

describe('tonight', () => {
  it('has at most three actions that win something; new darks must win twice as much as what needs none', () => {
    const { actions, none } = view([
      finding('unequal-exposures', 560_000),
      finding('moon-near', 0),
      finding('unexplained-time', undefined),
      finding('unused-darkness', 300_000),
      finding('settle-time', 240_000),
      // For the desk, and too little to change a habit for.
      finding('marginal-frames', 900_000),
      finding('slow-readout', 120_000),
    ]);
    expect(actions.map(({ anchor, win, what }) => [anchor, win, what])).toEqual([
      ['finding-unused-darkness-3', '5 min', 'Do unused-darkness first.'],
      ['finding-unequal-exposures-0', '9 min', 'Do unequal-exposures first.'],
      ['finding-settle-time-4', '4 min', 'Do settle-time first.'],
    ]);
    expect(none).toBe('');
    // Hours are worth new darks before minutes are.
    const [first] = view([finding('settle-time', 400_000), finding('sub-length', 6_600_000)]).actions;
    expect(first).toMatchObject({ what: 'Do sub-length first.', needsDarks: true });
  });

  it('has first what comes before all minutes, which promises none', () => {
    const { actions } = view([
      finding('settle-time', 400_000),
      { ...finding('larger-stars', undefined), isFirst: true },
    ]);
    expect(actions.map(({ what, win }) => [what, win])).toEqual([
      ['Do larger-stars first.', ''],
      ['Do settle-time first.', '7 min'],
    ]);
  });

  it('changes the lengths of subs in one way only', () => {
    const { actions } = view([finding('sub-length', 900_000), finding('unequal-exposures', 800_000)]);
    expect(actions.map(({ win }) => win)).toEqual(['15 min']);
  });

  it('names once what two findings advise alike, with what both win', () => {
    const { actions } = view([finding('dither-wait', 600_000), finding('dither-wait', 300_000)]);
    expect(actions.map(({ win }) => win)).toEqual(['15 min']);
  });

  it('says so when nothing is to be won', () => {
    expect(view([finding('moon-near', 0)])).toMatchObject({
      actions: [],
      none: expect.stringMatching(/nothing to change/),
    });
  });

  it('calls a night good of which each train kept most, with how much', () => {
    const night = namedNight('twin-night');
    const lightsOf = (pauseMs: number) =>
      night.gathered.trains.flatMap(({ id }) =>
        night.accounts.lights
          .filter(({ train }) => train === id)
          .slice(0, 10)
          .map((light, i): typeof light => {
            const startMs = night.span.startMs + i * (270_000 + pauseMs);
            return { ...light, verdict: 'kept', exposure: { startMs, endMs: startMs + 270_000 } };
          }),
      );
    const noneOf = (pauseMs: number): string =>
      tonightView(
        viewContext(altered(night, { findings: { ranked: [] }, accounts: { lights: lightsOf(pauseMs) } })),
        [],
      ).none;
    // Ten subs of 270 s in 2,970 s.
    expect(noneOf(30_000)).toMatch(/^A good night: .* each train kept 91 % of the time or more\. .* nothing to change/);
    expect(noneOf(60_000)).toMatch(/^No finding would gain even a minute/);
  });

  it('does not call a night good of which little is kept', () => {
    const night = namedNight('twin-night');
    const totals = night.accounts.totals.map((t) => ({ ...t, ms: { ...t.ms, kept: 0 } }));
    const poor = altered(night, { findings: { ranked: [] }, accounts: { totals } });
    expect(tonightView(viewContext(poor), []).none).toMatch(/not kept/);
  });

  it('names the same dithers once, whatever they are asked for', () => {
    const { actions } = view([
      { ...finding('dither-wait', 2_040_000), advice: 'Try this: dither every 5 frames. Replayed so, it is better.' },
      { ...finding('dither-often', 660_000), advice: 'Dither every 5 frames: 12 positions per filter are enough.' },
    ]);
    expect(actions.map(({ what, win }) => [what, win])).toEqual([['Try this: dither every 5 frames.', '45 min']]);
  });

  it('says of several trains once what each should do', () => {
    const asks = (train: string, advice: string) => ({ ...finding(`overdue-${train}`, 600_000), advice });
    const { actions } = view([
      asks('heron', 'Focus heron before its first sub.'),
      asks('wren', 'Focus wren before its first sub.'),
      asks('wren', 'Look at wren’s own log.'),
    ]);
    expect(actions.map(({ what, win }) => [what, win])).toEqual([
      ['Focus heron and wren before their first sub.', '20 min'],
      ['Look at wren’s own log.', '10 min'],
    ]);
  });

  it('takes names of trains as they stand, whatever is in them', () => {
    const night = namedNight('twin-night');
    const ids = ['h-0001 (a|b)', 'w-0002.*'];
    const trains = night.gathered.trains.map((t, i) => ({ ...t, id: ids[i] ?? t.id }));
    const ranked = ids.map((id) => ({
      ...finding('overdue-focus', 600_000),
      advice: `Focus ${id} before its first sub.`,
    }));
    const { actions } = tonightView(viewContext(altered(night, { gathered: { trains }, findings: { ranked } })), ids);
    expect(actions.map(({ what }) => what)).toEqual(['Focus h-0001 (a|b) and w-0002.* before their first sub.']);
  });

  it('names the twilight where it never grew dark, and nothing is promised then', () => {
    const night = namedNight('polar-summer');
    const lights = night.accounts.lights.map((f) => ({ ...f, causes: [{ kind: 'twilight' } as Cause] }));
    const ranked = [finding('settle-time', 400_000)];
    const { none, actions } = tonightView(
      viewContext(altered(night, { findings: { ranked }, accounts: { lights } })),
      [],
    );
    // The Sun stays up: no filter is advised.
    expect(none).toMatch(/^It never got dark enough .* darks and flats/);
    const almanac = night.sky.almanac && {
      ...night.sky.almanac,
      window: { ...night.sky.almanac.window, sunMinimumDeg: -8 },
    };
    const grey = altered(night, { findings: { ranked }, accounts: { lights }, sky: { almanac } });
    expect(tonightView(viewContext(grey), []).none).toContain('narrowband copes best with twilight');
    expect(actions).toEqual([]);
    expect(withoutPromises(ranked, night)[0]).not.toHaveProperty('winMs');
    expect(withoutPromises(ranked, namedNight('twin-night'))).toEqual(ranked);
  });

  it('gives the last place to the dearest loss of which nobody can tell what is won', () => {
    const dear = { ...finding('low-target', undefined), costMs: 20_000_000, caution: 'Mind the mount.' };
    const some = [finding('settle-time', 400_000), finding('slow-readout', 300_000)];
    const free = view([...some, dear]);
    expect(free.actions.map(({ win, cost }) => [win, cost])).toEqual([
      ['7 min', ''],
      ['5 min', ''],
      ['', '5.6 h'],
    ]);
    expect(free.caution).toBe('Mind the mount.');
    const more = [finding('filter-offsets', 1_000_000), ...some];
    expect(view([...more, dear]).actions.map(({ cost }) => cost)).toEqual(['', '', '5.6 h']);
    // It takes the place of nothing that wins as much, and moonlight is a matter of the plan.
    expect(view([...more, { ...dear, costMs: 900_000 }]).actions.map(({ cost }) => cost)).toEqual(['', '', '']);
    expect(view([...some, { ...dear, id: 'moon-cost' }]).actions).toHaveLength(2);
    // A shared night has no advice of it.
    expect(view([...some, { ...dear, evidence: [LEFT_OUT] }]).actions).toHaveLength(2);
  });

  it('names what else wins much after the three', () => {
    const { actions, further } = view([
      finding('unequal-exposures', 1_500_000),
      finding('unused-darkness', 1_400_000),
      finding('low-target', 1_300_000),
      finding('settle-time', 900_000),
      finding('slow-readout', 300_000),
    ]);
    expect(actions.map(({ win }) => win)).toEqual(['23 min', '22 min', '15 min']);
    expect(further.map(({ win, needsDarks }) => [win, needsDarks])).toEqual([['25 min', true]]);
  });

  it('says of a night without lights that there is nothing to judge', () => {
    expect(tonightView(viewContext(namedNight('no-frames')), []).none).toMatch(/^There is no light to judge/);
  });

  it('calls mishaps no reason to change nothing', () => {
    expect(view([{ ...finding('star-gap', undefined), costMs: 200_000 }]).none).toMatch(/Findings lists what/);
  });

  it('draws each goal’s bar no longer than the goal', () => {
    for (const { bars } of tonightView(viewContext(namedNight('twin-night')), []).goals)
      for (const { width } of bars) expect(Number.parseFloat(width)).toBeLessThanOrEqual(100);
  });
});
