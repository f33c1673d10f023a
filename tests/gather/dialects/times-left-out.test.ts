import { expect, it } from 'vitest';
import { wordEvidence } from '../../../src/gather/dialects/draft/lexicon/word-evidence.js';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

// The night on which clocks go back in Madrid (EU directive 2000/84/EC: 25 October 2026, 01:00 UTC).
const T0 = Date.UTC(2026, 9, 24, 21);
const CHANGE_MS = Date.UTC(2026, 9, 25, 1);
const ahead = (ms: number): number => (ms < CHANGE_MS ? 2 : 1);
const local = (ms: number): string => new Date(ms + ahead(ms) * 3_600_000).toISOString();
const FRAMES = Array.from({ length: 56 }, (_, i) => T0 + i * 320_000);

const begins = async (yaml: string, lines: readonly string[]): Promise<number[]> => {
  const { events } = await read(yaml, `${lines.join('\n')}\n`, { zone: 'UTC' });
  return events.flatMap(({ event, atMs }) => (event === 'exposure-begin' ? [atMs] : []));
};

it('reads hours and minutes run together with the hours ahead beside them, below elements with the date', async () => {
  const lines = ['<log place="hill">', '  <watch name="first watch" day="2026-10-24">'];
  let day = '2026-10-24';
  for (const ms of FRAMES)
    for (const [at, said] of [
      [ms, 'Shutter opens: Ha 300 s'],
      [ms + 300_000, 'Shutter closes'],
    ] as const) {
      const text = local(at);
      if (text.slice(0, 10) !== day)
        lines.push('  </watch>', `  <watch name="dog watch" day="${(day = text.slice(0, 10))}">`);
      const clock = `${text.slice(11, 13)}${text.slice(14, 16)}.${text.slice(17, 19)}`;
      lines.push(`    <post no="${lines.length}" t="${clock}" u="+${ahead(at)}" by="heron">${said}</post>`);
    }
  lines.push('  </watch>', '</log>');
  const { yaml } = drafted(lines);
  expect(yaml).toContain("time: ['t', 'u']");
  expect(await begins(yaml, lines)).toEqual(FRAMES);
});

/** Rows of a table whose clock stands empty where it would be that of the row above. */
const rows = (date: string, isBlank: (i: number) => boolean): string[] => [
  'no;time;device;act',
  `${date};;;`,
  ...FRAMES.flatMap((ms) => [
    [ms, 'mount', 'settling completed'],
    [ms, 'heron camera', 'exposure commenced, 300 s'],
    [ms + 300_000, 'heron camera', 'exposure completed'],
    [ms + 304_000, 'mount', 'dither commenced'],
    [ms + 307_000, 'mount', 'dither completed'],
    [ms + 307_000, 'mount', 'settling commenced'],
  ]).map(([ms, device, act], i) => {
    const clock = new Date(Number(ms)).toISOString().slice(11, 19);
    return [i + 1, isBlank(i) ? '' : clock, device, act].join(';');
  }),
];

it('gives rows without a time that of the row above, where no row repeats it', async () => {
  const lines = rows('24 October 2026', (i) => i % 6 === 1 || i % 6 === 5);
  const { yaml } = drafted(lines);
  expect(yaml).toContain('carry: true');
  expect(await begins(yaml, lines)).toEqual(FRAMES);
});

it('gives them none where rows state the same time again: empty means unknown there', () => {
  expect(drafted(rows('24 October 2026', (i) => i % 6 === 1)).yaml).not.toContain('carry: true');
});

it.each([
  ['Waiting over', 'hold-end'],
  ['Kept waiting: too bright', 'hold-begin'],
  ['Venter: for lyst', 'hold-begin'],
  ['Ventingen over', 'hold-end'],
  ['Closed early, clouds', 'exposure-abort'],
  ['Slutt å følge ledestjerne', 'guiding-end'],
])('understands %s without a subject as %s', (text, event) => {
  const [best] = [...wordEvidence(text)].sort((a, b) => b[1] - a[1]);
  expect(best?.[0]).toBe(event);
});

it('gives rows without a time that of the row above where each device has a column of its own', async () => {
  const lines = [
    '| time | heron | mount |',
    '|------|-------|-------|',
    ...FRAMES.flatMap((_, i) => {
      const ms = T0 + i * 480_000;
      const clock = (at: number): string => new Date(at).toISOString().slice(11, 16);
      const [open, shut] = [clock(ms), clock(ms + 300_000)];
      const dither = `dither ${2 + (i % 5)}.4 px`;
      const begun = `| ${open} | open Ha ${290 + (i % 9)} s | settled |`;
      return i % 2 === 0
        ? [begun, `| ${shut} | shut | ${dither} |`]
        : [begun, `| ${shut} |  | ${dither} |`, `|       | shut |  |`];
    }),
  ];
  const { yaml } = drafted(['## 24 October 2026', '', ...lines]);
  expect(yaml).toContain('carry: true');
  const { events } = await read(yaml, `## 24 October 2026\n\n${lines.join('\n')}\n`, { zone: 'UTC' });
  expect(events.filter(({ event }) => event === 'exposure-end')).toHaveLength(FRAMES.length);
});
