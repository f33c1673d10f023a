import { expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { brief, read } from './support/read.js';

const clock = (minutes: number): string => new Date((68_400 + minutes * 60) * 1000).toISOString().slice(11, 16);

/** Sentences to the minute in which trains do things, or things of theirs. */
const LINES = Array.from({ length: 16 }, (_, i): string[] => {
  const at = 12 * i;
  const [one, other] = i % 2 === 0 ? ['heron', 'wren'] : ['wren', 'heron'];
  return [
    `- ${clock(at)} — ${one} opened its shutter on M 42 for 600 seconds in Ha.`,
    `- ${clock(at)} — ${other} began a 600-second exposure of M 42 through OIII.`,
    `- ${clock(at + 10)} — ${one}’s exposure ${i + 1} was complete and was written to \`${one}-${i}.fits\`.`,
    `- ${clock(at + 10)} — ${other}’s exposure ${i + 1} was complete and was written to \`${other}-${i}.fits\`.`,
  ];
}).flat();

it.each(['’', "'"])('what is a train%ss is that train’s', async (mark) => {
  const lines = ['# The night of 4 December 2026, times UTC', '', ...LINES.map((line) => line.replace('’', mark))];
  const { yaml } = drafted(lines, 'diary.txt');
  const events = brief(await read(yaml, `${lines.join('\n')}\n`)).map((text) => text.slice(11).replace(/ \{.*/, ''));
  expect(events.slice(0, 6).sort(), yaml).toEqual(
    [
      '19:00:00.000Z exposure-begin heron',
      '19:00:00.000Z exposure-begin wren',
      '19:10:00.000Z exposure-end heron',
      '19:10:00.000Z exposure-end wren',
      '19:10:00.000Z frame-saved heron',
      '19:10:00.000Z frame-saved wren',
    ].sort(),
  );
  expect(events).toHaveLength(16 * 6);
});
