import { describe, expect, it } from 'vitest';
import { pairEvents } from '../../../src/gather/dialects/check/contradictions.js';
import type { EventName, LogEvent } from '../../../src/model/index.js';

const START_MS = Date.UTC(2026, 9, 14, 20);

/** One event every ten seconds. */
function eventsRead(...names: readonly EventName[]) {
  const events = names.map(
    (event, i) => ({ event, atMs: START_MS + i * 10_000, source: { file: 'a.log', line: i + 1 } }) as LogEvent,
  );
  const { spans, contradictions } = pairEvents(events);
  return {
    spans: spans.map(({ begin, startMs, endMs }) => [
      begin,
      startMs - START_MS,
      endMs === null ? null : endMs - START_MS,
    ]),
    kinds: contradictions.map(({ kind }) => kind),
  };
}

describe('what a beginning ends', () => {
  it('is a dither’s move, by the settling after it', () => {
    expect(eventsRead('dither-begin', 'settling-begin', 'settling-end')).toEqual({
      spans: [
        ['dither-begin', 0, 10_000],
        ['settling-begin', 10_000, 20_000],
      ],
      kinds: [],
    });
  });

  it('may still be reported by its own end, once', () => {
    expect(eventsRead('dither-begin', 'settling-begin', 'dither-end', 'settling-end').kinds).toEqual([]);
    expect(eventsRead('dither-begin', 'settling-begin', 'dither-end', 'settling-end', 'dither-end').kinds).toEqual([
      'end-without-begin',
    ]);
  });

  it('is a rest of the guiding or a lost star, by guiding that begins', () => {
    const again = eventsRead('guiding-begin', 'guiding-rest-begin', 'guiding-begin', 'star-gap-begin', 'guiding-begin');
    expect(again.spans).toContainEqual(['guiding-rest-begin', 10_000, 20_000]);
    expect(again.spans).toContainEqual(['star-gap-begin', 30_000, 40_000]);
  });

  it('is nothing else: an exposure that never ends is reported', () => {
    expect(eventsRead('exposure-begin', 'settling-begin', 'settling-end').kinds).toEqual(['never-ends']);
  });
});

describe('an end', () => {
  const kinds = (...names: readonly [EventName, train?: string][]): string[] =>
    pairEvents(
      names.map(([event, train], i) => {
        const source = { file: 'a.log', line: i + 1 };
        return { event, atMs: START_MS + i * 10_000, source, ...(train === undefined ? {} : { train }) } as LogEvent;
      }),
    ).contradictions.map(({ kind }) => kind);

  it('without a train ends what a train has begun', () => {
    expect(kinds(['dither-begin', 'heron'], ['dither-end'])).toEqual([]);
    expect(kinds(['dither-begin'], ['dither-end', 'heron'])).toEqual([]);
  });

  it('of another train ends nothing, nor one without a train where two are in progress', () => {
    expect(kinds(['focus-begin', 'heron'], ['focus-end', 'wren'])).toEqual(['never-ends', 'end-without-begin']);
    expect(kinds(['focus-begin', 'heron'], ['focus-begin', 'wren'], ['focus-end'])).toHaveLength(3);
  });
});

describe('times that step back', () => {
  const back = (...hours: readonly number[]): string[] =>
    pairEvents(
      hours.map(
        (hour, i) =>
          ({ event: 'note', atMs: START_MS + hour * 3_600_000, source: { file: 'a.log', line: i + 1 } }) as LogEvent,
      ),
    ).contradictions.map(({ message }) => message);

  it('by nearly a day are reported as past midnight under the date of the evening', () => {
    expect(back(0, 3.9, -19.9)).toEqual([expect.stringMatching(/^85680 s before line 2: nearly a day.*"time\.date"/)]);
  });

  it('by less or far more are reported as they are', () => {
    expect(back(5, 2)).toEqual(['10800 s before line 1']);
    expect(back(80, 2)).toEqual(['280800 s before line 1']);
  });
});
