import { describe, expect, it } from 'vitest';
import { loadDialect } from '../../../src/gather/dialects/index.js';
import { drafted } from './support/drafted.js';
import { brief, read } from './support/read.js';

const T0 = Date.UTC(2026, 9, 14, 19, 0);
const iso = (s: number): string => new Date(T0 + s * 1000).toISOString();

/** Records that are written when something is over, and say when it began: two exposures, then the wheel turns. */
const recordsOf = (after: string, length: (seconds: number) => string): { lines: string[]; events: string[] } => {
  const steps = Array.from({ length: 36 }, (_, i) =>
    i % 3 < 2
      ? { job: 'expose', atS: i * 250, took: 240 - (i % 3) * 40 + 0.4, asked: 240 - (i % 3) * 40 }
      : { job: 'turn-wheel', atS: i * 250 + 5, took: 3.6, asked: 0 },
  );
  const lines = steps.map(({ job, atS, took, asked }) =>
    JSON.stringify({
      job,
      started: iso(atS),
      want: { band: 'Ha', ...(asked === 0 ? {} : { length: length(asked) }) },
      got: { [after]: took },
    }),
  );
  const name = (job: string): string => (job === 'expose' ? 'exposure' : 'filter');
  const events = steps
    .flatMap(({ job, atS, took }) => [`${iso(atS)} ${name(job)}-begin`, `${iso(atS + took)} ${name(job)}-end`])
    .sort();
  return { lines, events };
};

describe('after how long something was over, in a field', () => {
  it.each([
    ['after', (s: number): string => `PT${s}S`],
    ['after', (s: number): string => `PT${Math.floor(s / 60)}M${s % 60 === 0 ? '' : `${s % 60}S`}`],
    ['nach', (s: number): string => `${s} s`],
    ['dopo', String],
  ])('is known by exposures that last as long as they were asked to: %s', async (after, length) => {
    const { lines, events } = recordsOf(after, length);
    const { yaml } = drafted(lines);
    expect(loadDialect('draft.yaml', yaml).warnings).toEqual([]);
    const found = brief(await read(yaml, lines.join('\n'))).map((text) => text.replace(/ \{.*$/, ''));
    expect(found.sort(), yaml).toEqual(events);
  });
});
