import { expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { brief, read } from './support/read.js';

const T0 = Date.UTC(2026, 9, 14, 20);
const clock = (s: number): string => new Date(T0 + s * 1000).toISOString().slice(11, 19);

it('blocks of one title are distinguished by what they call their time, and a file stands behind the time of its saving', async () => {
  const lines = ['Night sheet, 2026-10-14, UTC', ''];
  const truth: string[] = [];
  const block = (title: string, fields: Readonly<Record<string, string>>): void => {
    lines.push(title, ...Object.entries(fields).map(([name, value]) => `    ${name.padEnd(20)}${value}`), '');
  };
  let at = 600;
  const tell = (event: string, s: number): string => {
    truth.push(`${new Date(T0 + s * 1000).toISOString()} ${event}`);
    return clock(s);
  };
  for (let i = 0; i < 24; i++) {
    if (i % 6 === 0) {
      block('Guiding', { 'switched on': tell('guiding-begin', at) });
      at += 20;
    }
    block(`Frame ${i + 1}`, {
      filter: 'Ha',
      'exposure time': '300 s',
      'shutter open': tell('exposure-begin', at),
      'shutter closed': tell('exposure-end', at + 300),
      stored: `${tell('frame-saved', at + 303)}  Ha_${i}.fits`,
    });
    at += 306;
    tell('settling-begin', at + 5);
    block('Shift', {
      'start of move': tell('dither-begin', at),
      'end of move': tell('dither-end', at + 5),
      calm: tell('settling-end', at + 15 + (i % 7)),
    });
    at += 25;
    if (i % 6 === 5) {
      block('Guiding', { 'switched off': tell('guiding-end', at) });
      at += 30;
    }
  }
  const { yaml } = drafted(lines, 'night_2026-10-14.txt');
  const log = await read(yaml, `${lines.join('\n')}\n`, { name: 'night_2026-10-14.txt', zone: 'utc' });
  expect(
    brief(log)
      .map((line) => line.split(' {')[0])
      .sort(),
  ).toEqual(truth.toSorted());
});
