import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { brief, codes, read } from './support/read.js';

const draftOf = (lines: readonly string[]): string => drafted(lines, 'night_2026-10-14.log').yaml;

describe('a line with several stamps', () => {
  const DIALECT = `dialect: 1
time: { pattern: "{hour}:{minute}:{second}", zone: utc, date: session }
entries: stamps
lines:
  - { when: '^closed$', event: exposure-end }
  - { when: '^opened, (?<filter>\\w+)$', event: exposure-begin }
ignore: ['^supper']
`;

  it('is a message for each', async () => {
    const log = await read(
      DIALECT,
      '22:04  busy | 22:03:11 closed; 22:03:13 supper; 22:03:20 opened, Ha\n22:05  idle\n',
      {
        sessionDate: '2026-10-14',
      },
    );
    expect(brief(log)).toEqual([
      '2026-10-14T22:03:11.000Z exposure-end',
      '2026-10-14T22:03:20.000Z exposure-begin {"filter":"Ha"}',
    ]);
    expect(log.understood).toBe(1);
  });

  it('is drafted so', async () => {
    const two = (value: number): string => String(value).padStart(2, '0');
    const lines = Array.from({ length: 40 }, (_, i) => {
      const at = `${two(21 + Math.floor(i / 30))}:${two((i * 2) % 60)}`;
      return i % 2 === 0
        ? `${at} calm`
        : `${at} busy - ${at}:04 shutter opened, 60 s, Ha | ${at}:10 wind 3 m/s | ${at}:59 shutter closed`;
    });
    const yaml = draftOf(lines);
    expect(yaml).toContain('entries: stamps');
    const log = await read(yaml, `${lines.join('\n')}\n`, { name: 'night_2026-10-14.log', zone: 'UTC' });
    const names = log.events.map(({ event }) => event);
    expect(names.filter((name) => name === 'exposure-begin')).toHaveLength(20);
    expect(names.filter((name) => name === 'exposure-end')).toHaveLength(20);
  });
});

describe('a paragraph with several times', () => {
  it('tells each event at its own', async () => {
    const two = (value: number): string => String(value).padStart(2, '0');
    const lines = Array.from({ length: 30 }, (_, i) => {
      const clock = (second: number): string =>
        `${20 + Math.floor(i / 12)} h ${two((i * 5) % 60)} min ${two(second)} s`;
      return [
        `La pose n° ${i + 1} (NGC 281, filtre L, 30 secondes prévues) s'est ouverte à`,
        `   ${clock(2)} et s'est refermée à ${clock(32)}. L'image a été`,
        `   rangée à ${clock(34)} sous le nom heron_${i + 1}.fits.`,
      ];
    }).flat();
    const yaml = draftOf(lines);
    expect(yaml).toContain(String.raw`entries: { start: '^\S' }`);
    const log = await read(yaml, `${lines.join('\n')}\n`, { name: 'night_2026-10-14.log', zone: 'UTC' });
    expect(
      brief(log)
        .slice(0, 3)
        .map((one) => one.slice(11, 60).split(' {')[0]),
    ).toEqual(['20:00:02.000Z exposure-begin', '20:00:32.000Z exposure-end', '20:00:34.000Z frame-saved']);
    expect(log.events).toHaveLength(90);
  });
});

describe('records that share a number', () => {
  it('have what the first of them says', async () => {
    const log = await read(
      `dialect: 1
time: { pattern: '{epoch}' }
records: { as: pairs, time: t, join: job }
lines:
  - { when: { task: '^expose$', state: '^runs$' }, event: exposure-begin, fields: { filter: '{filter}' } }
  - { when: { task: '^expose$', state: '^done$' }, event: exposure-end }
  - { when: { task: '^focus$', state: '^done$' }, event: focus-end }
`,
      [
        't=1791918000 job=7 task=focus',
        't=1791918001 job=8 task=expose filter=Ha',
        't=1791918002 job=7 state=runs',
        't=1791918003 job=8 state=runs',
        't=1791918004 job=7 state=done',
        't=1791918005 job=8 state=done',
        't=1791918006 job=7 task=expose filter=L',
        't=1791918007 job=7 state=runs',
        '',
      ].join('\n'),
    );
    expect(brief(log).map((one) => one.slice(17))).toEqual([
      '03.000Z exposure-begin {"filter":"Ha"}',
      '04.000Z focus-end',
      '05.000Z exposure-end',
      '07.000Z exposure-begin {"filter":"L"}',
    ]);
  });
});

describe('guiding samples several to a line', () => {
  const HEAD = `dialect: 1
time: { pattern: "{epoch}", caught: "{elapsed}" }
sections: [{ begin: 'batch from (?<time>\\d+)', base: '{epoch}' }]
`;

  it('are read each at its time', async () => {
    const log = await read(
      `${HEAD}guiding: { when: '\\+(?<time>[\\d.]+):(?<x>[-\\d.]+)/(?<y>[-\\d.]+)', each: true, ra: x, dec: y }\n`,
      '1791918000 batch from 1791918000\n1791918010 +0.5:0.25/-1 +2.5:0.5/1 +4.5:-0.75/0\n',
    );
    expect([...(log.guiding?.atMs ?? [])].map((atMs) => atMs - 1_791_918_000_000)).toEqual([500, 2500, 4500]);
    expect([...(log.guiding?.raArcsec ?? [])]).toEqual([0.25, 0.5, -0.75]);
    expect([...(log.guiding?.decArcsec ?? [])]).toEqual([-1, 1, 0]);
    expect(codes(log)).toEqual([]);
  });

  it('may stand in tables inside entries', async () => {
    const log = await read(
      `dialect: 1
time: { pattern: ["{epoch} ", " [{elapsed},"] }
entries: { start: '^\\d' }
sections: [{ begin: 'since (?<time>\\d+)', base: '{epoch}' }]
lines: [{ when: 'opened', event: exposure-begin }]
guiding: { when: '^\\[[\\d.]+, (?<x>[-\\d.]+), (?<y>[-\\d.]+)\\]', ra: x, dec: y }
`,
      '1791918000 opened\n rows since 1791918001\n [0.5, 0.25, -1],\n [2.5, 0.5, 1]\n1791918100 opened\n',
    );
    expect(log.events).toHaveLength(2);
    expect([...(log.guiding?.atMs ?? [])].map((atMs) => atMs - 1_791_918_000_000)).toEqual([1500, 3500]);
  });
});

describe('a draft of records that share a number', () => {
  const TASKS = ['goto', 'centre', 'focus', 'expose', 'dither'];
  const lines = Array.from({ length: 60 }, (_, i) => {
    const t = 1_791_918_000 + i * 300;
    const task = i < 3 ? TASKS[i] : TASKS[3 + (i % 2)];
    return [
      `t=${t} job=${i + 1} task=${task}${task === 'expose' ? ' filter=Ha secs=240' : ''}`,
      `t=${t + 2} job=${i + 1} state=started`,
      `t=${t + (task === 'expose' ? 242 : 9)} job=${i + 1} state=finished`,
    ];
  }).flat();
  const yaml = draftOf(lines);

  it('names the number, and makes events of what becomes of each, not of the order', async () => {
    expect(yaml).toContain("join: 'job'");
    const log = await read(yaml, `${lines.join('\n')}\n`);
    const begins = log.events.filter(({ event }) => event === 'exposure-begin');
    expect(begins).toHaveLength(28);
    expect(begins.every(({ atMs }) => (atMs / 1000 - 1_791_918_000) % 300 === 2)).toBe(true);
    expect(log.events.filter(({ event }) => event === 'exposure-end')).toHaveLength(28);
  });
});

describe('a line that tells what begins at once after the other', () => {
  it.each([
    ['guiding: started and settling', ['guiding-begin', 'settling-begin']],
    ['guiding on, waiting for it to calm down', ['guiding-begin', 'settling-begin']],
  ])('tells both: %s', (begun, events) => {
    const clock = (second: number): string => new Date(Date.UTC(2026, 9, 14, 20) + second * 1000).toISOString();
    const lines = Array.from({ length: 4 }, (_, target) => {
      const from = target * 4000;
      return [
        [from, begun],
        [from + 14, 'guider: calm'],
        ...Array.from({ length: 8 }, (_unused, i): [number, string] => [from + 20 + i * 310, 'exposure begins, 300 s']),
        ...Array.from({ length: 8 }, (_unused, i): [number, string] => [from + 320 + i * 310, 'exposure over']),
        [from + 3000, 'guider: stopped'],
      ] as [number, string][];
    })
      .flat()
      .sort((a, b) => a[0] - b[0])
      .map(([at, text]) => `${clock(at)} ${text}`);
    const { report } = drafted(lines);
    const rule = report.rules.find(({ examples }) => examples[0] === begun);
    expect(rule?.events.map(({ event }) => event)).toEqual(events);
  });
});
