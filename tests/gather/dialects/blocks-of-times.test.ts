import { expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { brief, read } from './support/read.js';

const clock = (seconds: number): string =>
  new Date(Date.UTC(2026, 9, 14, 20) + seconds * 1000).toISOString().slice(11, 19);
const instant = (seconds: number): string => `2026-10-14T${clock(seconds)}.000Z`;

/** A night in blocks that state their times in fields; what seldom happens has names of its own for them. */
const BLOCKS = [
  ['guiding', `from: ${clock(10)}`, `calm: ${clock(22)}`],
  ...Array.from({ length: 14 }, (_, i) => {
    const at = 30 + i * 340;
    return [
      [
        'exposure',
        'planned: 300 s',
        `opened: ${clock(at)}`,
        `closed: ${clock(at + 300)}`,
        `saved: ${clock(at + 304)} m33_${i}.fits`,
      ],
      ['dither', 'by: 3.1 px', `from: ${clock(at + 306)}`, `moved: ${clock(at + 309)}`, `calm: ${clock(at + 325)}`],
    ];
  }).flat(),
  ['guide star lost', `lost: ${clock(4500)}`, `found: ${clock(4531)}`],
];
const LINES = [
  'log of wren, 14 October 2026, UTC',
  '',
  ...BLOCKS.flatMap(([title, ...fields]) => [`[${title}]`, ...fields.map((field) => `  ${field}`), '']),
];

it('reads a time and what came of it from one field, and settling from the move to the calm', async () => {
  const { yaml } = drafted(LINES);
  const events = brief(await read(yaml, `${LINES.join('\n')}\n`));
  expect(events).toContain(`${instant(10)} guiding-begin`);
  expect(events).toContain(`${instant(10)} settling-begin`);
  expect(events).toContain(`${instant(22)} settling-end`);
  expect(events.filter((text) => text.startsWith(`${instant(334)} frame-saved`))).toHaveLength(1);
  expect(events.find((text) => text.includes('frame-saved'))).toContain('"file":"m33_0.fits"');
  expect(events.some((text) => text.startsWith(`${instant(339)} settling-begin`))).toBe(true);
  expect(events.some((text) => text.startsWith(`${instant(355)} settling-end`))).toBe(true);
  expect(events.some((text) => text.startsWith(`${instant(4500)} star-gap-begin`))).toBe(true);
});
