import { expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

it('a column of details is why a hold began, and why a frame that could not be written has none', async () => {
  const rows: string[] = [];
  let second = 0;
  const row = (what: string, state: string, detail = ''): void => {
    const at = new Date(Date.UTC(2026, 9, 14, 20) + 1000 * second).toISOString().slice(0, 19).replace('T', ' ');
    rows.push([at, what, state, detail].join(';'));
  };
  for (let i = 0; i < 36; i++) {
    if (i === 12 || i === 25) {
      row('hold', 'begin', i === 12 ? 'cloud' : 'wind');
      second += 600;
      row('hold', 'end', 'calm and clear');
    }
    row('exposure', 'begin', 'Ha 300 s');
    second += 300;
    row('exposure', 'end');
    second += 2;
    if ([7, 8, 30].includes(i)) row('frame', 'failed', 'disk full');
    else row('frame', 'saved', `hut_${i}.fits`);
    second += 4;
  }
  const lines = ['time;what;state;detail', ...rows];
  const { yaml } = drafted(lines);
  const { events } = await read(yaml, `${lines.join('\n')}\n`, { zone: 'utc' });
  const why = (name: string) => events.flatMap((e) => (e.event === name && 'why' in e ? [e.why] : []));
  expect(why('hold-begin')).toEqual(['cloud', 'wind']);
  expect(why('exposure-abort')).toEqual(['disk full', 'disk full', 'disk full']);
});
