import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { brief, read } from './support/read.js';

const T0 = Date.UTC(2026, 9, 14, 20);
const stamp = (s: number): string => new Date(T0 + s * 1000).toISOString().slice(0, 19);

interface Row {
  readonly at: number;
  readonly unit: string;
  readonly mark: string;
  readonly step: string;
  readonly data: string;
  readonly truth?: string;
}

/** A night of two cameras that each have steps, entered and left; waiting for the next dither is a step as well. */
function night(): { rows: Row[]; truth: string[] } {
  const rows: Row[] = [];
  const add = (unit: string, at: number, seconds: number, step: string, event: string, data = ''): void => {
    rows.push({ at, unit, mark: '>', step, data, truth: `${event}-begin` });
    rows.push({ at: at + seconds, unit, mark: '<', step, data: 'code=0', truth: `${event}-end` });
  };
  const wait = (unit: string, at: number, until: number): void => {
    rows.push({ at, unit, mark: '>', step: '75 wait for dither', data: '', truth: 'dither-ready' });
    rows.push({ at: until, unit, mark: '<', step: '75 wait for dither', data: 'code=0' });
  };
  add('mount', 20, 35, '20 slew', 'slew', 'field=M 13');
  for (let i = 0; i < 14; i++) {
    const at = 200 + 340 * i;
    add('east', at, 300, '40 expose', 'exposure', 'secs=300 filter=L');
    add('west', at + 1, 300, '40 expose', 'exposure', 'secs=300 filter=Ha');
    const later = (3 * i) % 7;
    rows.push({ at: at + 301, unit: 'east', mark: '.', step: '45 file', data: `e_${i}.fits`, truth: 'frame-saved' });
    rows.push({ at: at + 303, unit: 'west', mark: '.', step: '45 file', data: `w_${i}.fits`, truth: 'frame-saved' });
    wait('east', at + 304, at + 328 + later);
    wait('west', at + 306, at + 328 + later);
    add('mount', at + 308, 4, '50 dither', 'dither', `px=2.${i}`);
    add('guider', at + 312, 14 + later, '60 settle', 'settling');
  }
  for (const at of [1000, 3000]) add('guider', at, 45, '65 no star', 'star-gap');
  rows.sort((a, b) => a.at - b.at);
  const truth = rows.flatMap((row) => (row.truth === undefined ? [] : [`${stamp(row.at)}.000Z ${row.truth}`]));
  return { rows, truth };
}

const inColumns = ({ at, unit, mark, step, data }: Row): string => {
  const [number = '', ...name] = step.split(' ');
  return `${stamp(at)}  ${unit.padEnd(8)}${mark}${number}  ${name.join(' ').padEnd(16)}${data}`.trimEnd();
};
describe('steps that are entered and left', () => {
  it('in columns: a step left that is called after a state is over', async () => {
    const { rows, truth } = night();
    const lines = ['time                 unit    no   step            data', ...rows.map(inColumns)];
    const { yaml } = drafted(lines);
    const log = await read(yaml, `${lines.join('\n')}\n`, { zone: 'utc' });
    const reported = brief(log).map((line) => line.split(' ').slice(0, 2).join(' '));
    expect(reported.sort()).toEqual(truth.toSorted());
  });
});
