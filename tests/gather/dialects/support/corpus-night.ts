import type { EventFields, EventName } from '../../../../src/model/index.js';
import { uniform } from '../../../support/generator/random.js';

/** One thing that happens in the invented night, as the program that logs it knows it. */
export interface Happening extends EventFields {
  readonly atMs: number;
  readonly event: EventName;
  /** For ends: when the thing began. */
  readonly beganMs?: number;
  /** Running number of the exposure. */
  readonly number?: number;
}

const PLAN = [
  { target: 'NGC 281', filter: 'Ha', seconds: 300 },
  { target: 'NGC 281', filter: 'OIII', seconds: 300 },
  { target: 'IC 1396', filter: 'SII', seconds: 420 },
  { target: 'M 33', filter: 'L', seconds: 120 },
] as const;

/**
 * An invented night of one train at Cierzo Hill, 14 October 2026: four targets and filters, dithers every third
 * frame, refocusing at every filter, one lost guide star, one meridian flip and one hold for cloud.
 */
export function inventedNight(seed: number): Happening[] {
  const random = uniform(seed);
  const happenings: Happening[] = [];
  let now = Date.UTC(2026, 9, 14, 18, 41, 7, 300);
  let number = 0;
  const wait = (seconds: number): number => (now += Math.round(seconds * (800 + random() * 400)));
  const add = (event: EventName, facts: Omit<Happening, 'atMs' | 'event'> = {}): void => {
    happenings.push({ atMs: now, event, ...facts });
  };
  const span = (
    begin: EventName,
    end: EventName,
    seconds: number,
    before: Omit<Happening, 'atMs' | 'event'> = {},
    after: Omit<Happening, 'atMs' | 'event'> = {},
  ): void => {
    add(begin, before);
    const beganMs = now;
    if (begin === 'exposure-begin') now += seconds * 1000 + Math.round(random() * 300);
    else wait(seconds);
    add(end, { ...after, beganMs });
    wait(1);
  };
  const one = (low: number, high: number): number => Math.round((low + random() * (high - low)) * 100) / 100;

  PLAN.forEach(({ target, filter, seconds }, block) => {
    span('slew-begin', 'slew-end', 40, { target }, { target });
    span('centre-begin', 'centre-end', 35, { target }, { target });
    span('filter-begin', 'filter-end', 6, { to: filter }, { to: filter });
    span(
      'focus-begin',
      'focus-end',
      110,
      { why: 'filter' },
      { ok: true, sizeBefore: one(2.4, 3), sizeAfter: one(1.8, 2.3), position: 11_000 + Math.round(random() * 900) },
    );
    add('guiding-begin');
    wait(12);
    for (let frame = 1; frame <= 9; frame++) {
      number++;
      const file = `frames/heron/${target.replace(' ', '')}_${filter}_${String(number).padStart(4, '0')}.fits`;
      add('cooler', { temperature: one(-10.2, -9.8), setpoint: -10 });
      wait(1);
      const aborted = block === 2 && frame === 4;
      span(
        'exposure-begin',
        aborted ? 'exposure-abort' : 'exposure-end',
        aborted ? 90 : seconds,
        { target, filter, seconds, number },
        { target, filter, seconds, number },
      );
      if (aborted) {
        span('hold-begin', 'hold-end', 1500, { why: 'cloud' });
      } else {
        wait(2);
        add('frame-saved', { file, number });
        wait(1);
      }
      if (block === 1 && frame === 5) {
        span('guiding-rest-begin', 'guiding-rest-end', 200, {});
        span('flip-begin', 'flip-end', 95);
      }
      if (block === 3 && frame === 2) span('star-gap-begin', 'star-gap-end', 25);
      if (frame % 3 === 0) {
        add('dither-ready');
        wait(4);
        span('dither-begin', 'dither-end', 3, { pixels: one(2, 6) });
        span('settling-begin', 'settling-end', 9, {}, { ok: true });
      }
    }
    add('guiding-end');
    wait(3);
  });
  return happenings;
}
