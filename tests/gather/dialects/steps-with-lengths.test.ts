import { expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { brief, read } from './support/read.js';

const clock = (seconds: number): string =>
  [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60, seconds % 60]
    .map((part) => String(part).padStart(2, '0'))
    .join('.');
const spelt = (seconds: number): string =>
  [seconds >= 60 ? `${Math.floor(seconds / 60)} min` : '', seconds % 60 > 0 ? `${seconds % 60} s` : '']
    .filter((part) => part !== '')
    .join(' ');

/** Steps with their beginning and their length, the lengths of most kinds shorter than a minute. */
function sheet(header: readonly string[], words: readonly string[]): string[] {
  const [move = '', calm = '', shot = ''] = words;
  const rows = Array.from({ length: 8 }, (_, i) => {
    const at = 66_000 + 400 * i;
    return [
      [clock(at), shot, 'Ha', spelt(300), `heron_${i}.fits`],
      [clock(at + 310), move, '', spelt(2 + (i % 3)), ''],
      [clock(at + 315), calm, '', spelt(i % 7 === 6 ? 63 : 9 + i), ''],
    ];
  }).flat();
  return ['## 6.2.2027', '', ...[header, ...rows].map((cells) => cells.join(' | '))];
}

it.each([
  [
    ['Kl.', 'Vad', 'Filter', 'Tid', 'Anm.'],
    ['knuff', 'insvängning', 'exponering'],
  ],
  [
    ['Uhr', 'Was', 'Filter', 'Dauer', 'Bemerkung'],
    ['Dither', 'Beruhigen', 'Belichtung'],
  ],
  [
    ['when', 'step', 'filter', 'for', 'remark'],
    ['dither', 'settling', 'exposure'],
  ],
])('steps with their beginning and length in units have both ends: %s', async (header, words) => {
  const lines = sheet(header, words);
  const { yaml } = drafted(lines, 'night.txt');
  const events = brief(await read(yaml, `${lines.join('\n')}\n`, { zone: 'UTC' }))
    .map((text) => text.replace(/ \{.*/, ''))
    .slice(0, 6);
  expect(events, yaml).toEqual([
    '2027-02-06T18:20:00.000Z exposure-begin',
    '2027-02-06T18:25:00.000Z exposure-end',
    '2027-02-06T18:25:10.000Z dither-begin',
    '2027-02-06T18:25:12.000Z dither-end',
    '2027-02-06T18:25:15.000Z settling-begin',
    '2027-02-06T18:25:24.000Z settling-end',
  ]);
});
