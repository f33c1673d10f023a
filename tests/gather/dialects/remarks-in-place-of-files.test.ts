import { expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

const T0 = Date.UTC(2026, 9, 14, 19, 30);
const at = (seconds: number): string => new Date(T0 + seconds * 1000).toISOString().slice(0, 19).replace('T', ' ');

it('keeps the files of exposures that sentences tell of, where some have a remark in place of their file', async () => {
  const cut = [7, 20];
  const lines = [
    'begun;ended;what;details;outcome',
    ...Array.from({ length: 30 }, (_, i) => {
      const from = i * 330;
      const to = from + (cut.includes(i) ? 41 : 300);
      return [
        `${at(from)};${at(to)};exposure;300 s; Ha; M 33; frame ${i + 1}`.replace(/; /g, ' / '),
        cut.includes(i) ? 'ABORTED: camera does not answer' : `m33_${i + 1}.fits`,
      ].join(';');
    }),
    ...Array.from({ length: 10 }, (_, i) => {
      const from = i * 990 + 304;
      return `${at(from)};${at(from + 4)};dither;${3 + (i % 3)}.2 px in both axes;ok`;
    }),
  ];
  const { events } = await read(drafted(lines).yaml, `${lines.join('\n')}\n`, { zone: 'UTC' });
  const files = events.flatMap(({ event, ...facts }) =>
    event === 'exposure-end' && 'file' in facts ? [facts.file] : [],
  );
  expect(files).toHaveLength(28);
  expect(files.every((file) => /^m33_\d+\.fits$/.test(String(file)))).toBe(true);
});
