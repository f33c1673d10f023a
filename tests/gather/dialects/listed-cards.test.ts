import { describe, expect, it } from 'vitest';
import { listedCards } from '../../../src/gather/dialects/sheet/listed-cards.js';
import { remarksBetween } from '../../../src/gather/dialects/sheet/remarks-between.js';
import { sheetRows } from '../../../src/gather/dialects/sheet/sheet-rows.js';

/** Ten frames of an hour each from 20:00 UTC, a nudge and its settling before every other one. */
const CARDS = Array.from({ length: 10 }, (_, i) => {
  const at = (seconds: number): string => new Date(Date.UTC(2026, 9, 14, 20 + i) + seconds * 1000).toISOString();
  const clock = (seconds: number): string => at(seconds).slice(11, 19);
  return [
    `  - frame: ${i + 1}`,
    '    train: heron',
    ...(i % 2 === 0
      ? [
          '    before:',
          `      - {nudge: '${clock(-30)} - ${clock(-27)}', px: 2.1}`,
          `      - {settling: '${clock(-27)} - ${clock(-9)}'}`,
        ]
      : []),
    `    opened: ${at(0).replace('.000', '')}`,
    `    closed: ${at(3000).replace('.000', '')}`,
  ];
}).flat();

describe('a YAML list of frames with lists of what was before them', () => {
  const text = ['site: Cierzo Hill', 'frames:', ...CARDS];

  it('is a row for each frame, and one for each step on the day nearest to its frame', () => {
    const rows = sheetRows(text) ?? [];
    expect(rows).toContain('1\theron\t2026-10-14T20:00:00Z\t2026-10-14T20:50:00Z');
    expect(rows).toContain('2026-10-14T19:59:30Z\t2026-10-14T19:59:33Z\theron\tnudge px 2.1');
    // The step before midnight belongs to the frame behind it.
    expect(rows).toContain('2026-10-14T23:59:33Z\t2026-10-14T23:59:51Z\theron\tsettling');
    expect(rows.filter((row) => row.endsWith('settling'))).toHaveLength(5);
  });

  it('is none where entries have no steps, or the text is no YAML', () => {
    expect(listedCards(text.filter((line) => !line.includes('{')))).toBeNull();
    expect(listedCards([...text, "  - {open: '"])).toBeNull();
    expect(listedCards([...text, 'again: &all x', 'once: *all'])).toBeNull();
    expect(listedCards(['- one', '- two'])).toBeNull();
  });
});

describe('a remark of two things with times', () => {
  it('is two if each has its own', () => {
    const remarks = [
      '(1) nudge of 2 px, 19:41:52 to 19:41:54; settling 19:41:54 to 19:42:15',
      '(2) refocused 19:50:10; it is colder now',
      '(3) settling 20:10:00 to 20:10:12',
    ];
    const table = remarksBetween(remarks.map((line) => ({ text: line, cells: [line], isTaken: false })));
    expect(table?.rows.map(([from, until]) => [from, until])).toEqual([
      ['19:41:52', '19:41:54'],
      ['19:41:54', '19:42:15'],
      ['19:50:10', ''],
      ['20:10:00', '20:10:12'],
    ]);
  });
});
