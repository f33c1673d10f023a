import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

/** 14 October 2026, 20:00 UTC. */
const T0 = Date.UTC(2026, 9, 14, 20);
const FRAMES = 24;

/**
 * A table of rows with both ends, how long each has lasted in whole seconds, and a column that holds the target of an
 * exposure and else a remark with figures, each another.
 */
function table(): string[] {
  const rows = ['from;to;what;lasted_s;remark'];
  let atMs = T0;
  const row = (what: string, seconds: number, remark: string, pauseSeconds = 2): void => {
    const clock = (ms: number): string => `${new Date(ms).toISOString().slice(0, 19)}Z`;
    rows.push([clock(atMs), clock(atMs + seconds * 1000), what, seconds, remark].join(';'));
    atMs += (seconds + pauseSeconds) * 1000;
  };
  for (let i = 0; i < FRAMES; i++) {
    row('exposure', 240, 'NGC 7331');
    row('shifting', 4, `${(2.1 + i / 10).toFixed(1)} pixels`, 0);
    row('dying down', 8 + ((i * 7) % 13), `${(0.4 + i / 100).toFixed(2)} left of it`);
  }
  return rows;
}

describe('a table of whole seconds', () => {
  it('takes for exposures what lasts as asked for, and not all that lasts as long as it says', async () => {
    const lines = table();
    const { yaml } = drafted(lines, 'night.csv');
    const { events } = await read(yaml, `${lines.join('\n')}\n`);
    const count = (name: string): number => events.filter(({ event }) => event === name).length;
    expect(['exposure-begin', 'exposure-end'].map(count)).toEqual([FRAMES, FRAMES]);
  });

  it('is identified by what happened, not by remarks that all differ', () => {
    const { report } = drafted(table(), 'night.csv');
    const kinds = [...report.rules, ...report.unused].map(({ kind }) => kind.count);
    expect(kinds.sort((a, b) => a - b)).toEqual([FRAMES, FRAMES, FRAMES]);
  });
});
