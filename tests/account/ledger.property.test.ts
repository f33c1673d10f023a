import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { takeAccount } from '../../src/account/index.js';
import { ACCOUNT_PRIORITY, ACCOUNTS, contains, durationMs, intersect, sum } from '../../src/model/index.js';
import { randomNight, TRAINS } from './random-night.js';
import { runs } from '../support/runs.js';

describe('the ledger of any night', () => {
  it('adds up to the window, to the millisecond, on every train', () => {
    fc.assert(
      fc.property(randomNight, (night) => {
        for (const ledger of takeAccount(night).ledgers) {
          expect(sum(ACCOUNTS.map((a) => ledger.totalsMs[a]))).toBe(durationMs(night.window));
        }
      }),
      runs(400),
    );
  });

  it('tiles the window: no gap, no overlap, each total the sum of its segments', () => {
    fc.assert(
      fc.property(randomNight, (night) => {
        for (const { segments, totalsMs } of takeAccount(night).ledgers) {
          let edge = night.window.startMs;
          for (const segment of segments) {
            expect(segment.span.startMs).toBe(edge);
            expect(segment.span.endMs).toBeGreaterThan(edge);
            edge = segment.span.endMs;
          }
          if (segments.length > 0) expect(edge).toBe(night.window.endMs);
          for (const account of ACCOUNTS) {
            expect(sum(segments.filter((s) => s.account === account).map((s) => durationMs(s.span)))).toBe(
              totalsMs[account],
            );
          }
        }
      }),
    );
  });

  it('lets an open shutter win over everything else', () => {
    fc.assert(
      fc.property(randomNight, (night) => {
        const { lights, ledgers } = takeAccount(night);
        for (const { train, segments } of ledgers) {
          const own = lights.filter((f) => f.train === train);
          for (const segment of segments) {
            const isOpen = own.some((f) => intersect(f.exposure, segment.span));
            expect(['kept', 'doubtful', 'lost'].includes(segment.account)).toBe(isOpen);
          }
        }
      }),
    );
  });

  it('gives each millisecond to the highest claim by the written priority', () => {
    fc.assert(
      fc.property(randomNight, fc.integer({ min: 0, max: 2_399_999 }), (night, offset) => {
        if (!contains(night.window, offset)) return;
        const { lights, ledgers } = takeAccount(night);
        const calibration = night.frames.filter((f) => f.kind !== 'light');
        for (const train of TRAINS) {
          const claimed = new Set<string>(['unexplained']);
          for (const f of lights) if (f.train === train.id && contains(f.exposure, offset)) claimed.add(f.verdict);
          for (const f of calibration) if (f.train === train.id && contains(f.exposure, offset)) claimed.add('hold');
          for (const a of night.activities) {
            if ((a.train !== undefined && a.train !== train.id) || !contains(a.span, offset)) continue;
            const account = {
              slew: 'pointing',
              centre: 'pointing',
              flip: 'pointing',
              'dither-move': 'dither',
              settling: 'dither',
              'guiding-start': 'guiding',
              'star-gap': 'guiding',
              readout: 'readout',
              focus: 'focus',
              filter: 'filter',
              hold: 'hold',
            }[a.kind as string];
            if (account) claimed.add(account);
          }
          const found = ledgers
            .find((l) => l.train === train.id)!
            .segments.find((s) => contains(s.span, offset))!.account;
          const best = ACCOUNT_PRIORITY.find((account) => claimed.has(account))!;
          // Waits are worked out from the whole night, not from claims at one instant; they rank below all others.
          if (found === 'dither-wait' || found === 'partner-wait') expect(best).toBe('unexplained');
          else expect(found).toBe(best);
        }
      }),
      runs(300),
    );
  });
});

describe('the verdicts of any night', () => {
  it('give every light exactly one verdict, and totals are the sum of the frames', () => {
    fc.assert(
      fc.property(randomNight, (night) => {
        const { lights, totals } = takeAccount(night);
        expect(lights).toHaveLength(night.frames.filter((f) => f.kind === 'light').length);
        for (const verdict of ['kept', 'doubtful', 'lost'] as const) {
          expect(sum(totals.map((t) => t.frames[verdict]))).toBe(lights.filter((f) => f.verdict === verdict).length);
          expect(sum(totals.map((t) => t.ms[verdict]))).toBe(
            sum(lights.filter((f) => f.verdict === verdict).map((f) => durationMs(f.exposure))),
          );
        }
        for (const t of totals) {
          expect(t.frames.kept + t.frames.doubtful + t.frames.lost).toBe(t.frames.taken);
          expect(t.ms.kept + t.ms.doubtful + t.ms.lost).toBe(t.ms.taken);
        }
      }),
    );
  });

  it('have a cause unless kept, and the gravest cause decides', () => {
    fc.assert(
      fc.property(randomNight, (night) => {
        for (const light of takeAccount(night).lights) {
          const gravest = light.causes.some((c) => c.verdict === 'lost')
            ? 'lost'
            : light.causes.length > 0
              ? 'doubtful'
              : 'kept';
          expect(light.verdict).toBe(gravest);
          for (const cause of light.causes) expect(cause.overlapMs).toBeLessThanOrEqual(durationMs(light.exposure));
        }
      }),
    );
  });
});

describe('the dither cycles of any night', () => {
  it('never wait a negative time, and the holder was ready last', () => {
    fc.assert(
      fc.property(randomNight, (night) => {
        for (const cycle of takeAccount(night).dithers) {
          const waits = Object.entries(cycle.waits).flatMap(([train, w]) => (w ? [[train, w.waitMs] as const] : []));
          for (const [, waitMs] of waits) expect(waitMs).toBeGreaterThanOrEqual(0);
          if (cycle.holder !== null)
            expect(cycle.waits[cycle.holder]!.waitMs).toBe(Math.min(...waits.map(([, ms]) => ms)));
        }
      }),
    );
  });
});
