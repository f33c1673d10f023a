import { describe, expect, it } from 'vitest';
import type { LogEvent } from '../../src/model/index.js';
import { SeenEvents } from '../../src/gather/repeated-events.js';
import { event } from '../support/events.js';

const inFile = (file: string, events: readonly LogEvent[]): LogEvent[] =>
  events.map((one, i) => ({ ...one, source: { file, line: i + 1 } }));
const night = [
  event('21:00:00', 'exposure-begin', { seconds: 300, filter: 'Ha' }, 'heron'),
  event('21:05:00', 'exposure-end', {}, 'heron'),
];

describe('a log that repeats another', () => {
  it('counts nothing twice, and is named', () => {
    const reported = new SeenEvents();
    expect(reported.add(inFile('a.jsonl', night))).toMatchObject({ warnings: [] });
    const copy = reported.add(inFile('copy of a.jsonl', night));
    expect(copy.events).toEqual([]);
    expect(copy.warnings).toMatchObject([
      {
        code: 'repeated-log',
        count: 2,
        message: expect.stringContaining('copy of a.jsonl repeats all of its 2 events from a.jsonl'),
      },
    ]);
  });

  it('keeps what is its own: another train, another length, what it says twice itself', () => {
    const reported = new SeenEvents();
    reported.add(inFile('a.jsonl', night));
    const own = inFile('b.jsonl', [
      event('21:00:00', 'exposure-begin', { seconds: 240, filter: 'Ha' }, 'heron'),
      event('21:00:00', 'exposure-begin', { seconds: 300, filter: 'Ha' }, 'wren'),
      event('21:10:00', 'note', { text: 'wind' }, 'heron'),
      event('21:10:00', 'note', { text: 'wind' }, 'heron'),
      ...night.slice(1),
    ]);
    const { events, warnings } = reported.add(own);
    expect(events).toEqual(own.slice(0, 4));
    expect(warnings[0]?.message).toContain('b.jsonl repeats 1 of its 5 events from a.jsonl');
  });

  it('is found among several, before and after one that was looked through', () => {
    const reported = new SeenEvents();
    const later = [event('23:00:00', 'exposure-begin', { seconds: 300, filter: 'Ha' }, 'heron')];
    reported.add(inFile('a.jsonl', night));
    expect(reported.add(inFile('b.jsonl', later)).events).toHaveLength(1);
    expect(reported.add(inFile('copy of a.jsonl', night)).warnings[0]?.message).toContain('from a.jsonl');
    expect(reported.add(inFile('copy of b.jsonl', later)).warnings[0]?.message).toContain('from b.jsonl');
    expect(reported.add(inFile('again.jsonl', [...night, ...later])).events).toEqual([]);
  });

  it('is silent of a log that is read for two trains', () => {
    const reported = new SeenEvents();
    reported.add(inFile('both.jsonl', night));
    expect(reported.add(inFile('both.jsonl', night))).toEqual({ events: [], warnings: [] });
  });
});
