import { expect, it } from 'vitest';
import { drafted } from './support/drafted.js';

const AT = Date.UTC(2026, 9, 14, 20) / 1000;

/** An indented document in which each object names its time after what it is the time of. */
const OBJECTS = Array.from({ length: 10 }, (_, i) => {
  const from = AT + i * 330;
  return [
    { do: 'expose', seconds: 300, filter: 'L', from, to: from + 300.1 },
    { do: 'save', at: from + 302, file: `h_${i}.fits` },
    { do: 'dither', pixels: 2.5, from: from + 303, to: from + 305.2 },
    { do: 'weather', at: from + 304, air: 3.1 },
  ];
}).flat();

it('takes the first of several names for the time of a record', () => {
  const { report } = drafted(JSON.stringify({ acts: OBJECTS }, null, 1).split('\n'));
  expect(report.layout).toMatchObject({ kind: 'records', form: 'json', timeIsFirst: true, time: ['from', 'at'] });
  const events = report.rules.flatMap((rule) => rule.events.map(({ event }) => event));
  expect(events).toEqual(
    expect.arrayContaining(['exposure-begin', 'exposure-end', 'dither-begin', 'dither-end', 'frame-saved']),
  );
});
