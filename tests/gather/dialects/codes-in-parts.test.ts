import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { brief, read } from './support/read.js';

/** Codes of a train and an act, the first explained in brackets, the second in a list with the names of its values. */
const LEGEND = [
  '; Cierzo Hill 2026-10-14, universal time',
  '; code = train (0 mount or general, 1 heron, 2 wren) + two figures',
  ';  10 shutter opens: filter, seconds, target      11 shutter closed, exposure complete',
  ';  15 frame written: file                          41 dither begins: pixels',
  ';  42 dither done                                  44 settled: seconds of settling',
  ';  30 focusing begins: position, star size         31 focusing done: position, size before, size after',
];
const clock = (seconds: number): string => new Date(Date.UTC(2026, 9, 14, 20, 0, seconds)).toISOString().slice(11, 19);

function night(code: (train: number, act: string) => string): string[] {
  return Array.from({ length: 24 }, (_, i) => {
    const t = i * 340;
    return [
      ...(i % 8 === 0
        ? [
            [t, code(1, '30'), `8${String(i + 10)} 3.1${String(i % 10)}`],
            [t + 60, code(1, '31'), `8${String(i + 15)} 3.1${String(i % 10)} 2.5${String(i % 10)}`],
          ]
        : []),
      [t + 62, code(2, '10'), 'L 240 M 33'],
      [t + 63, code(1, '10'), 'Ha 240 M 33'],
      [t + 302, code(2, '11'), ''],
      [t + 303, code(1, '11'), ''],
      [t + 305, code(2, '15'), `w${String(i)}.fits`],
      [t + 306, code(1, '15'), `h${String(i)}.fits`],
      [t + 308, code(0, '41'), `2.${String(i % 10)}`],
      [t + 310, code(0, '42'), ''],
      [t + 322, code(0, '44'), String(10 + (i % 3))],
    ].map(([at, what, values]) => `${clock(Number(at))} ${String(what)} ${String(values)}`.trimEnd());
  }).flat();
}

describe('codes of a device and an act that a legend explains one by one', () => {
  it.each([
    ['the device first', (train: number, act: string) => `${String(train)}${act}`],
    ['the act first', (train: number, act: string) => `${act}${String(train)}`],
  ])('are read, with the names of their values: %s', async (_, code) => {
    const lines = [...LEGEND, ...night(code)];
    const { yaml } = drafted(lines);
    const events = brief(await read(yaml, `${lines.join('\n')}\n`));
    const of = (name: string): string[] => events.filter((one) => one.split(' ')[1] === name);
    expect(of('exposure-begin')).toHaveLength(48);
    expect(of('exposure-begin')[0]).toContain('2026-10-14T20:01:02.000Z');
    expect(of('exposure-begin')[0]).toContain('wren {"filter":"L","seconds":240,"target":"M 33"}');
    for (const name of ['exposure-end', 'frame-saved']) expect(of(name), name).toHaveLength(48);
    for (const name of ['dither-begin', 'dither-end', 'settling-begin', 'settling-end'])
      expect(of(name), name).toHaveLength(24);
    expect(of('settling-begin')[0]).toContain('T20:05:12.000Z');
    for (const fact of ['"sizeBefore":3.1', '"sizeAfter":2.5', '"position":815'])
      expect(of('focus-end')[0]).toContain(fact);
  });
});
