import { describe, expect, it } from 'vitest';
import { keepLedgers } from '../../src/account/ledger.js';
import { interval, type Activity, type JudgedFrame } from '../../src/model/index.js';
import { at, light } from '../support/events.js';
import { activity } from '../model/judging/around.js';

const kept = (train: string, begin: string, seconds: number): JudgedFrame => ({
  ...light(train, begin, seconds),
  verdict: 'kept',
  causes: [],
  cleared: [],
  sky: null,
  guiding: null,
});

function accounts(train: string, lights: JudgedFrame[], activities: Activity[], from = '21:00:00', to = '21:20:00') {
  const ledgers = keepLedgers({
    window: interval(at(from), at(to)),
    trains: ['heron', 'wren'],
    lights,
    calibration: [],
    activities,
    dithers: [],
  });
  const own = ledgers.find((l) => l.train === train)!;
  return Object.fromEntries(
    Object.entries(own.totalsMs)
      .filter(([, ms]) => ms > 0)
      .map(([a, ms]) => [a, ms / 1000]),
  );
}

describe('the ledger', () => {
  it('leaves unclaimed time unexplained', () => {
    expect(accounts('heron', [kept('heron', '21:00:00', 300)], [])).toEqual({ kept: 300, unexplained: 900 });
  });
  it('charges a mount activity on every train', () => {
    const slew = activity('slew', '21:00:00', '21:01:00');
    expect(accounts('heron', [], [slew]).pointing).toBe(60);
    expect(accounts('wren', [], [slew]).pointing).toBe(60);
  });
  it('counts a hold rather than what went on during it', () => {
    const all = [
      activity('hold', '21:00:00', '21:10:00', { why: 'cloud' }),
      activity('focus', '21:05:00', '21:06:00', { train: 'heron' }),
    ];
    expect(accounts('heron', [], all)).toEqual({ hold: 600, unexplained: 600 });
  });
  it('calls idling through the other train’s refocus a wait for the partner', () => {
    const pause = activity('guiding-rest', '21:05:00', '21:06:30', { causedBy: 'heron' });
    const focus = activity('focus', '21:05:00', '21:06:30', { train: 'heron' });
    expect(accounts('wren', [kept('wren', '21:00:00', 330)], [pause, focus])).toEqual({
      kept: 330,
      'partner-wait': 60,
      unexplained: 810,
    });
    expect(accounts('heron', [], [pause, focus])).toEqual({ focus: 90, unexplained: 1110 });
  });
  it('calls idling before a flip a wait for the partner while its shutter is open', () => {
    const flip = activity('flip', '21:10:00', '21:12:00');
    const lights = [kept('heron', '21:00:00', 300), kept('wren', '21:05:30', 270)];
    expect(accounts('heron', lights, [flip])).toEqual({
      kept: 300,
      'partner-wait': 270,
      pointing: 120,
      unexplained: 510,
    });
  });
  it('cuts frames at the window’s edges', () => {
    expect(accounts('heron', [kept('heron', '20:58:00', 300)], [], '21:00:00', '21:01:00')).toEqual({ kept: 60 });
  });
});
