import { describe, expect, it } from 'vitest';
import { durationMs, hull, interval, type LedgerSegment, type Night } from '../../../src/model/index.js';
import { lossesOf } from '../../../src/report/figures/losses.js';
import { altered } from '../../support/altered.js';
import { namedNight, NIGHT_NAMES } from '../../support/nights.js';

const MINUTE = 60_000;
const at = (minute: number): number => Date.UTC(2026, 9, 19, 20, minute);
const span = (from: number, to: number) => interval(at(from), at(to));
const segment = (account: LedgerSegment['account'], from: number, to: number, label?: string): LedgerSegment => ({
  account,
  span: span(from, to),
  certainty: 'measured',
  ...(label === undefined ? {} : { label }),
});

describe('losses', () => {
  it.each(NIGHT_NAMES)('count no moment of the clock twice under one label: %s', (name) => {
    const night = namedNight(name);
    const losses = lossesOf(night);
    for (const { label, ms } of losses) {
      expect(ms, label).toBeGreaterThan(0);
      expect(ms, label).toBeLessThanOrEqual(durationMs(night.sky.window));
    }
    expect(losses.map(({ ms }) => ms)).toEqual(losses.map(({ ms }) => ms).sort((a, b) => b - a));
    expect(new Set(losses.map(({ label }) => label)).size).toBe(losses.length);
  });

  it('are given in clock hours, by label and by train', () => {
    const night = namedNight('twin-night');
    const [frame] = night.accounts.lights;
    if (!frame) throw new Error('the night has no light');
    const light = (train: string, from: number, to: number) => ({ ...frame, train, exposure: span(from, to) });
    const totalsMs = night.accounts.ledgers[0]?.totalsMs;
    if (!totalsMs) throw new Error('the night has no ledger');
    const small = altered(night, {
      sky: { window: span(0, 120) },
      accounts: {
        dithers: [],
        lights: [light('heron', 10, 40), light('wren', 25, 55), light('heron', 80, 100)],
        ledgers: [
          {
            train: 'heron',
            totalsMs,
            segments: [
              segment('unexplained', 0, 10),
              segment('partner-wait', 40, 52),
              segment('hold', 55, 75, 'cloud'),
              segment('focus', 75, 80),
              segment('unexplained', 100, 120),
            ],
          },
          {
            train: 'wren',
            totalsMs,
            segments: [
              segment('unexplained', 0, 25),
              segment('hold', 55, 77, 'cloud'),
              segment('unexplained', 77, 120),
            ],
          },
        ],
      },
    });
    expect(hull(small.accounts.lights.map(({ exposure }) => exposure))).toEqual(span(10, 100));
    expect(lossesOf(small)).toEqual([
      { label: 'unused darkness', trains: [], ms: 30 * MINUTE },
      { label: 'wren stopping early', trains: [], ms: 23 * MINUTE },
      { label: 'cloud', trains: ['heron', 'wren'], ms: 22 * MINUTE },
      { label: 'wren starting late', trains: [], ms: 15 * MINUTE },
      { label: 'heron waiting for wren', trains: [], ms: 12 * MINUTE, part: { label: 'at dithers', ms: 0 } },
      { label: 'focusing', trains: ['heron'], ms: 5 * MINUTE },
    ]);
  });

  it('count a moment that two trains held for two reasons once, under the longer one', () => {
    const night = namedNight('twin-night');
    const totalsMs = night.accounts.ledgers[0]?.totalsMs;
    const [frame] = night.accounts.lights;
    if (!totalsMs || !frame) throw new Error('the night has no ledger');
    const light = (train: string, from: number, to: number) => ({ ...frame, train, exposure: span(from, to) });
    const held = altered(night, {
      sky: { window: span(0, 120) },
      accounts: {
        dithers: [],
        lights: [light('heron', 0, 55), light('wren', 0, 55), light('heron', 80, 120), light('wren', 80, 120)],
        ledgers: [
          {
            train: 'heron',
            totalsMs,
            segments: [segment('hold', 55, 60, 'cloud'), segment('hold', 60, 75, 'dark frames')],
          },
          { train: 'wren', totalsMs, segments: [segment('hold', 55, 80, 'cloud')] },
        ],
      },
    });
    const holds = lossesOf(held).filter(({ label }) => label === 'cloud' || label === 'dark frames');
    expect(holds).toEqual([{ label: 'cloud', trains: ['heron', 'wren'], ms: 25 * MINUTE }]);
  });

  it('do not call a train idle whose frames were not found', () => {
    const night = namedNight('three-trains');
    const segments: LedgerSegment[] = [{ account: 'unexplained', span: night.sky.window, certainty: 'measured' }];
    const idle = (warnings: Night['timeline']['warnings']) =>
      lossesOf({
        ...night,
        accounts: {
          ...night.accounts,
          lights: night.accounts.lights.filter(({ train }) => train !== 'wren'),
          ledgers: night.accounts.ledgers.map((ledger) => (ledger.train === 'wren' ? { ...ledger, segments } : ledger)),
        },
        timeline: { ...night.timeline, warnings },
      })
        .map(({ label }) => label)
        .filter((label) => /^wren (?:not imaging|\()/.test(label));
    expect(idle([])).toEqual(['wren not imaging']);
    const notFound = { code: 'frames-not-found', message: 'no frame matches wren/*.fits (wren)', train: 'wren' };
    expect(idle([notFound])).toEqual(['wren (no frames found)']);
  });

  it('name the train that was waited for where there are three', () => {
    const labels = lossesOf(namedNight('three-trains')).map(({ label }) => label);
    expect(labels.some((label) => /^\w+ waiting for (?:heron|wren|stilt)$/.test(label))).toBe(true);
  });
});
