import { describe, expect, it } from 'vitest';
import { isValue } from '../../../src/gather/dialects/draft/kinds/message-path.js';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

/** 14 October 2026, 20:00 UTC. */
const T0 = Date.UTC(2026, 9, 14, 20);
const LENGTHS_SECONDS = [180, 240] as const;
const FRAMES = 30;

/**
 * A table whose rows are written when a thing is over: what happened stands in few words of its own, one column holds
 * whatever number belongs to it, and another remarks that are longer and of more kinds than what they are about.
 */
function table(): string[] {
  const rows = ['day_UTC;clock_UTC;who;what;through;number;remark'];
  let at = T0;
  const row = (...cells: (string | number)[]): void => {
    const [day, clock] = new Date(at).toISOString().split('T');
    rows.push([day, clock?.slice(0, 8), ...cells].join(';'));
  };
  row('heron', 'guiding started', '', '', 'guide star at 411 312');
  for (let i = 0; i < FRAMES; i++) {
    const seconds = LENGTHS_SECONDS[Math.floor(i / 15)] ?? NaN;
    const name = `frame_${String(i).padStart(4, '0')}.fits`;
    at += seconds * 1000;
    row('heron', 'exposure finished', 'Ha', seconds, `${i + 1} of ${FRAMES} of the list for M 33`);
    at += 3000;
    row('heron', 'file written', 'Ha', name, `${812 + 7 * i} stars in it, sky at ${1040 + i}`);
    at += 1000;
    if (i % 3 !== 2) continue;
    row('heron', 'dither finished', '', 2.5, `moved by ${2 + i / 10} pixels in all`);
    at += 9000;
    row('heron', 'guiding settled', '', 0.41, `calm again after ${8 + (i % 4)} seconds or so`);
  }
  return rows;
}

async function eventsOf(lines: readonly string[]) {
  return (await read(drafted(lines, 'night.csv').yaml, `${lines.join('\n')}\n`)).events;
}

describe('a table with remarks beside what happened', () => {
  it('is read by what happened, in the zone that its columns are called by', async () => {
    const events = await eventsOf(table());
    const count = (name: string): number => events.filter(({ event }) => event === name).length;
    expect(['frame-saved', 'dither-end', 'settling-end', 'guiding-begin'].map(count)).toEqual([30, 10, 10, 1]);
    expect(events[0]?.atMs).toBe(T0);
  });

  it('has exposures as long as a number without a name says, which each end with their row', async () => {
    const events = await eventsOf(table());
    const ends = events.filter(({ event }) => event === 'exposure-end');
    expect(ends).toHaveLength(FRAMES);
    expect(events.filter(({ event }) => event === 'exposure-begin')[0]?.atMs).toBe(T0);
    expect(ends[0]?.atMs).toBe(T0 + 180_000);
  });
});

describe('whether a text is a value that says nothing', () => {
  it.each(['5.5 0.2 px', '-10 °C, 78 %', '3,4/5,6"', '12.11.2026'])('takes %s for one', (text) => {
    expect(isValue(text)).toBe(true);
  });

  it.each(['1', '1 ', '1,', '1.5 C; '])(
    'is recognised in time linear in repetitions of %j followed by words',
    (number) => {
      const before = process.cpuUsage();
      expect(isValue(`${number.repeat(5000)}_ was seen`)).toBe(false);
      // A pattern that tries every division of forty such numbers takes hours.
      expect(process.cpuUsage(before).user).toBeLessThan(2_000_000);
    },
  );
});
