import { describe, expect, it } from 'vitest';
import { loadDialect } from '../../../src/gather/dialects/index.js';
import { sinceInText } from '../../../src/gather/dialects/draft/time/since-previous.js';
import { drafted } from './support/drafted.js';
import { brief, read } from './support/read.js';

const SECTION = `
sections:
  - begin: 'watch begins (?<time>.+)$'
    base: '{year}-{month}-{day} {hour}:{minute}:{second}'
`;

describe('times that count from the line before', () => {
  it('are summed up from the instant that a line states, whatever becomes of the lines', async () => {
    const dialect = `
dialect: 1
time: { pattern: '+{elapsed} ', since: previous, zone: utc }
${SECTION}
lines:
  - { when: '^unveiled', event: exposure-begin }
  - { when: '^veiled', event: exposure-end }
ignore: ['^owl']
`;
    const log = [
      '+9.0 before the watch',
      'watch begins 2026-10-14 20:00:00',
      '+0.5 unveiled',
      '+59.5 owl heard',
      '+1.0 nobody knows',
      'no time here',
      '+2.25 veiled',
      'watch begins 2026-10-14 22:00:00',
      '+3 unveiled',
    ];
    expect(brief(await read(dialect, log.join('\n')))).toEqual([
      '2026-10-14T20:00:00.500Z exposure-begin',
      '2026-10-14T20:01:03.250Z exposure-end',
      '2026-10-14T22:00:03.000Z exposure-begin',
    ]);
  });

  it('are summed up over rows that no rule takes, and rows that are ignored as text', async () => {
    const dialect = `
dialect: 1
time: { pattern: '{elapsed}', since: previous, zone: utc }
records: { as: pairs, time: gap }
${SECTION}
lines:
  - { when: { what: '^veiled$' }, event: exposure-end }
ignore: ['owl']
`;
    const log = [
      'watch begins 2026-10-14 20:00:00',
      'gap=1.5 what=unveiled',
      'gap=10 what=owl',
      'gap=20 what=veiled',
      'gap=5 what=veiled',
    ];
    expect(brief(await read(dialect, log.join('\n')))).toEqual([
      '2026-10-14T20:00:31.500Z exposure-end',
      '2026-10-14T20:00:36.500Z exposure-end',
    ]);
  });

  it.each([
    ["time: { pattern: '{epoch}', since: previous }", 'every pattern needs {elapsed}'],
    [`time: { pattern: '{elapsed}', since: previous }\nentries: stamps${SECTION}`, 'entries: stamps'],
  ])('are an error where nothing counts, or no line is the one before: %s', (time, message) => {
    const { dialect, warnings } = loadDialect(
      'x.yaml',
      `dialect: 1\n${time}\nlines: [{ when: veiled, event: exposure-end }]`,
    );
    expect(dialect).toBeNull();
    expect(warnings.map((one) => one.message).join('\n')).toContain(message);
  });
});

/** What a night says, each with the seconds since what was said before. */
function night(): { readonly gap: number; readonly text: string; readonly fields: string }[] {
  const said: { gap: number; text: string; fields: string }[] = [];
  for (let i = 0; i < 24; i++) {
    const seconds = i < 12 ? 120 : 300;
    said.push({
      gap: i % 3 === 0 ? 21.5 : 2.25,
      text: `exposure ${i + 1} begins, ${seconds} s in Ha`,
      fields: `what=exposure state=begins nr=${i + 1} seconds=${seconds}`,
    });
    if (i % 2 === 1) said.push({ gap: 31, text: 'hygrometer at 61', fields: 'what=hygrometer state=61' });
    said.push({
      gap: seconds + 0.4 - (i % 2 === 1 ? 31 : 0),
      text: `exposure ${i + 1} ended`,
      fields: `what=exposure state=ended nr=${i + 1}`,
    });
  }
  return said;
}

describe('a draft of a log whose times count from the line before', () => {
  const head = 'night watch begins 2026-10-14T20:00:00Z';

  it.each([
    ['in front of sentences', night().map(({ gap, text }) => `+${gap.toFixed(2)} ${text}`)],
    ['in a field', night().map(({ gap, fields }) => `after=${gap.toFixed(2)} ${fields}`)],
  ])('sums them up where the lengths that it states bear that out: %s', async (_, lines) => {
    const { yaml } = drafted([head, ...lines]);
    expect(yaml).toContain('since: previous');
    const { events } = await read(yaml, [head, ...lines].join('\n'));
    const ends = events.filter(({ event }) => event === 'exposure-end');
    const [first, last] = [ends[0], ends.at(-1)];
    expect(ends).toHaveLength(24);
    expect(new Date(first?.atMs ?? NaN).toISOString()).toBe('2026-10-14T20:02:21.900Z');
    // 24 exposures of 0.4 s more than they state, after 8 pauses of 21.5 s and 16 of 2.25 s.
    const seconds = 12 * 120 + 12 * 300 + 24 * 0.4 + 8 * 21.5 + 16 * 2.25;
    expect(((last?.atMs ?? NaN) - Date.UTC(2026, 9, 14, 20)) / 1000).toBeCloseTo(seconds, 3);
  });

  it('takes what hardly ever falls for no waits, whatever its sums agree with', () => {
    const lines = (waitOf: (i: number) => number) =>
      Array.from({ length: 60 }, (_, i) => ({
        number: i + 1,
        text: `+${waitOf(i).toFixed(2)} exposure of 60 s begins`,
      }));
    expect(sinceInText(lines((i) => 62 + (i % 3) / 10))).toMatchObject({ since: 'previous' });
    expect(sinceInText(lines((i) => 62 + i / 100))).toBeNull();
  });

  it('takes numbers for no times that no length bears out', () => {
    const lines = night().map(({ text }, i) => `+${((i * 7.3) % 29).toFixed(2)} ${text}`);
    expect(drafted([head, ...lines]).yaml).not.toContain('since: previous');
  });
});
