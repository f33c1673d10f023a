import { describe, expect, it } from 'vitest';
import { isReplayed, type Finding, type Night } from '../../../src/model/index.js';
import { seeded } from '../../support/generator/random.js';
import type { Scenario } from '../../support/generator/scenario.js';
import { some } from '../../support/runs.js';
import { expectHeld, gainMs, LEAST_MS, MINUTE, reported, scenarioOf, SHARE } from './support.js';

/** The scenario under a what-if's settings. */
function followed(scenario: Scenario, settings: readonly string[]): Scenario {
  const pairs = settings.map((setting) => setting.split('=') as [string, string]);
  const every = pairs.find(([key]) => key === 'dither-every')?.[1];
  const secondsOf = new Map(pairs.map(([key, value]) => [/^exposure\.(\w+)$/.exec(key)?.[1], Number(value)]));
  return {
    ...scenario,
    ditherEvery: every === undefined ? scenario.ditherEvery : Number(every),
    trains: scenario.trains.map((train) => ({
      ...train,
      plan: train.plan.map((p) => ({ ...p, seconds: secondsOf.get(train.id) ?? p.seconds })),
    })),
  };
}

const CAN_FOLLOW = /^(dither-every|exposure\.\w+)=/;

describe.each(some([1, 2, 3, 4, 5, 6], 1))('on random night %i', (seed) => {
  const scenario = scenarioOf(seed);
  const asked = reported(scenario);
  const found = (night: Night, title: RegExp): Finding | undefined =>
    night.findings.ranked.find((f) => f.id === 'unused-darkness' && title.test(f.title));

  it('beginning at dark wins what was promised', async () => {
    const night = await asked;
    const finding = found(night, /^First/);
    if (finding?.winMs === undefined) return;
    const begin = new Date(night.sky.window.startMs + 2 * MINUTE).toISOString();
    expectHeld(finding.winMs, gainMs(scenario, { ...scenario, begin }), finding.title);
  });

  it('imaging on to the end of darkness wins what was promised', async () => {
    const night = await asked;
    const finding = found(night, /^Last/);
    expect(finding?.winMs).toBeGreaterThan(0);
    const end = new Date(night.sky.window.endMs).toISOString();
    expectHeld(finding?.winMs ?? NaN, gainMs(scenario, { ...scenario, end }), finding?.title ?? '');
  });

  it('the best rules win what was promised, and no finding promises more', async () => {
    const night = await asked;
    if (!isReplayed(night.replay)) throw new Error('not replayed');
    const { best, whatIfs } = night.replay;
    const free = [...whatIfs, ...(best ? [best] : [])].filter(
      (w) => w.outside.length === 0 && w.settings.every((s) => CAN_FOLLOW.test(s)) && w.gain.meanMs >= 5 * MINUTE,
    );
    const waits = night.findings.ranked.filter((f) => f.id === 'dither-wait' && f.winMs !== undefined);
    for (const w of free) {
      const trueMs = gainMs(scenario, followed(scenario, w.settings));
      const isAdvised = w.id === 'best' || waits.some((f) => f.advice.includes(w.title.slice(1)));
      if (isAdvised) expectHeld(w.gain.meanMs, trueMs, w.title);
      // What nobody advises holds within its own spread and that.
      const slackMs = Math.max(LEAST_MS, SHARE * trueMs);
      expect(trueMs, w.title).toBeGreaterThan(w.gain.lowMs - slackMs);
      expect(trueMs, w.title).toBeLessThan(w.gain.highMs + slackMs);
    }
    for (const finding of waits) {
      const named = free.filter((w) => finding.advice.includes(w.title.slice(1)));
      const wonMs = Math.max(0, ...named.map((w) => gainMs(scenario, followed(scenario, w.settings))));
      expect(finding.winMs, finding.title).toBeLessThanOrEqual(wonMs + Math.max(LEAST_MS, SHARE * wonMs));
    }
  });
});

describe('three trains of three lengths', () => {
  it.each(some([2, 1, 3, 5], 1))(
    'win in step what is stated, and no one of them alone as much: random night %i',
    async (seed) => {
      const random = seeded(seed);
      const calm = scenarioOf(seed);
      const lengths = [300, random.whole(23, 27) * 10, random.whole(19, 21) * 10];
      const [heron, wren] = calm.trains;
      if (!heron || !wren) throw new Error('two trains were asked for');
      const scenario: Scenario = {
        ...calm,
        name: `three-${seed}`,
        ditherEvery: 3,
        trains: [heron, wren, { ...wren, id: 'owl', telescope: 'owl', focalLengthMm: 250, startOffsetMin: 3 }].map(
          (t, i) => ({
            ...t,
            plan: t.plan.map((p) => ({ ...p, seconds: lengths[i] ?? p.seconds })),
          }),
        ),
      };
      const night = await reported(scenario);
      if (!isReplayed(night.replay)) throw new Error('not replayed');
      const inStep = night.replay.whatIfs.find(({ id }) => id === 'companions-in-step');
      expect(inStep?.settings).toHaveLength(2);
      expectHeld(
        inStep?.gain.meanMs ?? NaN,
        gainMs(scenario, followed(scenario, inStep?.settings ?? [])),
        `${JSON.stringify(lengths)}: ${inStep?.title}`,
      );
      const others = night.replay.whatIfs.filter(({ id }) => id.startsWith('companion-exposure-'));
      for (const { gain, title } of others) expect(gain.meanMs, title).toBeLessThanOrEqual(inStep?.gain.meanMs ?? NaN);
    },
  );
});
