import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { brief, read } from './support/read.js';

const T0 = Date.UTC(2026, 9, 14, 19);
const instant = (seconds: number): string => new Date(T0 + seconds * 1000).toISOString();

interface Step {
  readonly from: number;
  readonly to: number;
  readonly who: string;
  readonly step: string;
  readonly result: string;
}

/** A night of steps, what each is and what came of it in columns of their own: the results are the longer sentences. */
const STEPS = Array.from({ length: 24 }, (_, i): Step[] => {
  const at = 60 + i * 340;
  const west: Step = {
    from: at,
    to: at + 300,
    who: 'west',
    step: 'exposición 300 s Ha NGC 281',
    result: `buena, archivo west_${i}.fits`,
  };
  const east: Step = {
    from: at + 2,
    to: at + 182,
    who: 'east',
    step: 'exposición 180 s L NGC 281',
    result: `buena, archivo east_${i}.fits`,
  };
  return [
    ...(i % 6 === 0
      ? [{ from: at - 20, to: at - 12, who: 'west', step: 'cambio de filtro a Ha', result: 'hecho, rueda en 3' }]
      : []),
    west,
    east,
    { from: at + 303, to: at + 306, who: 'mount', step: 'dither', result: 'hecho, 2 px' },
    { from: at + 306, to: at + 318 + (i % 3), who: 'mount', step: 'estabilización', result: 'hecho, rms 0,6' },
  ];
}).flat();

describe('steps beside what came of them', () => {
  it('are identified by what they are, and the results state the file', async () => {
    const rows = STEPS.map(({ from, to, who, step, result }, i) =>
      [i + 1, instant(from), instant(to), who, step, result].join(' | '),
    );
    const lines = ['id | inicio | fin | quien | paso | resultado', ...rows];
    const { yaml } = drafted(lines, 'noche.txt');
    const events = brief(await read(yaml, `${lines.join('\n')}\n`)).map((text) => text.replace(/ \{.*/, ''));
    const expected = ['dither-begin', 'dither-end', 'settling-begin', 'settling-end', 'exposure-begin', 'exposure-end'];
    for (const event of expected) expect(events.filter((one) => one.includes(event)).length, yaml).toBeGreaterThan(20);
    expect(events).toContain(`${instant(363)} dither-begin`);
    expect(events).toContain(`${instant(360)} exposure-end west`);
  });
});

describe('rows of two trains of which one states beginnings and the other ends', () => {
  const NA = 'NA';
  const rows = STEPS.filter(({ who, step }) => who !== 'mount' && step.startsWith('exp')).map(
    ({ from, to, who }, i) => [
      i + 1,
      who,
      who === 'west' ? instant(from) : NA,
      who === 'west' ? NA : instant(to),
      to - from,
      who === 'west' ? 'Ha' : 'L',
      `${who}_${i}.fits`,
    ],
  );
  const lines = ['row,unit,start_utc,stop_utc,length_s,filter,file', ...rows.map((row) => row.join(','))];

  it('have the time that each fills; a number of the row is none, and NA fills nothing', async () => {
    const { yaml } = drafted(lines, 'tidy.csv');
    expect(yaml).toContain("time: { first: ['start_utc', 'stop_utc'] }");
    const { events } = await read(yaml, `${lines.join('\n')}\n`);
    const found = (event: string, train: string): string[] =>
      events
        .filter((one) => one.event === event && one.train === train)
        .map(({ atMs }) => new Date(atMs).toISOString());
    for (const [train, begin, end] of [
      ['west', 60, 360],
      ['east', 62, 242],
    ] as const) {
      expect(found('exposure-begin', train)[0], yaml).toBe(instant(begin));
      expect(found('exposure-end', train)[0], yaml).toBe(instant(end));
    }
  });
});
