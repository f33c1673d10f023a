/** Subs shorter than a dither, resumed late: a gap that spans a dither says more than when the next exposure begins. */
import { describe, expect, it } from 'vitest';
import { KEEPS_TO_NONE, lineTimesOf, type HeaderFrame, type TellingEvent } from '../../../src/model/index.js';
import { compareClocks } from '../../../src/reconstruct/index.js';
import { chanceOf } from '../../../src/reconstruct/clocks/by-chance.js';
import { seeded } from '../../support/generator/random.js';
import { some } from '../../support/runs.js';

const BEGIN_MS = Date.UTC(2026, 10, 9, 19);
const HOURS = 3;

interface Companion {
  /** Whether it closes its shutter for the pilot's dithers. */
  readonly waits: boolean;
  /** It resumes up to so much later than the mount has settled, and so much differs its readout, ms. */
  readonly lateMs: number;
  readonly aheadMs: number;
}

/** The pilot's subs of a minute with a dither after three; ten seconds each on the companion, by its headers alone. */
function night(seed: number, { waits, lateMs, aheadMs }: Companion) {
  const random = seeded(seed);
  const events: TellingEvent[] = [];
  const headers: (HeaderFrame & { readonly train: string })[] = [];
  const taken = (train: string, startMs: number, seconds: number): void => {
    const file = `${train}/${headers.length}.fits`;
    const exposure = { startMs, endMs: startMs + seconds * 1000 };
    headers.push({ train, file, sizeBytes: 1, headerHash: file, kind: 'light', exposure, exposureSeconds: seconds });
  };
  const log = (atMs: number, event: 'dither-begin' | 'settling-begin' | 'settling-end'): void =>
    void events.push({
      atMs,
      event,
      train: 'heron',
      source: { file: 'heron', line: events.length + 1 },
    } as TellingEvent);
  const rests: { readonly fromMs: number; readonly toMs: number }[] = [];
  let atMs = BEGIN_MS;
  for (let n = 1; atMs < BEGIN_MS + HOURS * 3_600_000; n++) {
    taken('heron', atMs, 60);
    atMs += 62_500 + random.whole(0, 300);
    if (n % 3 !== 0) continue;
    // Until the companion's shutter is closed.
    const fromMs = atMs + 6000;
    const toMs = fromMs + 2300 + 8000 + random.whole(0, 4000);
    log(fromMs, 'dither-begin');
    log(fromMs + 2300, 'settling-begin');
    log(toMs, 'settling-end');
    rests.push({ fromMs, toMs });
    atMs = toMs + 200;
  }
  let freeMs = BEGIN_MS + 5000;
  while (freeMs < BEGIN_MS + HOURS * 3_600_000) {
    const rest = waits ? rests.find(({ fromMs, toMs }) => freeMs + 10_000 > fromMs && freeMs < toMs) : undefined;
    if (rest) freeMs = rest.toMs + random.whole(0, lateMs);
    taken('wren', freeMs + aheadMs, 10);
    freeMs += 11_500 + random.whole(0, 3000);
  }
  return { headers, events };
}

describe('a companion with subs shorter than a dither', () => {
  const clockOf = (seed: number, companion: Companion) => {
    const { headers, events } = night(seed, companion);
    const { notes } = compareClocks({
      trains: ['heron', 'wren'],
      headers,
      events,
      lineTimes: lineTimesOf(events),
      byHandMs: new Map(),
    });
    return notes.find(({ train }) => train === 'wren');
  };

  it.each(some([1, 2, 3, 4, 5, 6], 2))('that waits for dithers keeps to them, however late it resumes: %i', (seed) => {
    const clock = clockOf(seed, { waits: true, lateMs: 12_000, aheadMs: 0 });
    expect(clock?.by).not.toBe(KEEPS_TO_NONE);
    expect(Math.abs(clock?.aheadMs ?? NaN)).toBeLessThan(6000);
  });

  it.each(some([1, 2, 3, 4, 5, 6], 1))('shows how far its clock is off: %i', (seed) => {
    const clock = clockOf(seed, { waits: true, lateMs: 12_000, aheadMs: 47_000 });
    expect(Math.abs((clock?.aheadMs ?? NaN) - 47_000)).toBeLessThan(6000);
  });

  it.each(some([1, 2, 3, 4, 5, 6], 1))('that does not wait keeps to none: %i', (seed) => {
    expect(clockOf(seed, { waits: false, lateMs: 0, aheadMs: 0 })?.by).toBe(KEEPS_TO_NONE);
  });
});

describe('the chance of a wait', () => {
  it('is that of an interval longer than it, over their mean', () => {
    const shutters = Array.from({ length: 101 }, (_, i) => {
      const beginMs = i * 10_000 + (i > 50 ? 20_000 : 0);
      return { beginMs, endMs: beginMs + 8000, readyMs: beginMs + 9000, notBeforeMs: beginMs + 9000 };
    });
    const byChance = chanceOf({ shutters, cadenceMs: 10_000 });
    expect(byChance(5000)).toBe(10_000);
    // One interval of a hundred is longer.
    expect(byChance(15_000)).toBe(1_000_000);
  });
});
