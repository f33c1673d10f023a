import { describe, expect, it } from 'vitest';
import { loadDialect } from '../../../src/gather/dialects/index.js';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

/** Six hours past midnight, a shutter that opens every five minutes or so. */
const NIGHT = Array.from({ length: 140 }, (_, i) => ({
  at: new Date(Date.UTC(2026, 8, 16, 19, 41, 3) + Math.floor(i / 2) * 307_000 + (i % 2) * 300_000),
  says: i % 2 === 0 ? 'the shutter opens' : 'the shutter closes',
}));

interface Written {
  readonly heading: (day: number, hour: number, minute: string) => string;
  readonly part: (minute: string, second: string) => string;
  readonly isEachMinute?: boolean;
  readonly top?: string;
}

const DATED = 'Written in the night of 16 September 2026, times in UTC';
const two = (number: number): string => String(number).padStart(2, '0');

function written({ heading, part, isEachMinute = false, top = 'All times in UTC' }: Written): string[] {
  let last = '';
  return [
    top,
    ...NIGHT.flatMap(({ at, says }) => {
      const minute = two(at.getUTCMinutes());
      const title = heading(at.getUTCDate(), at.getUTCHours(), minute);
      const isNew = title !== last;
      last = title;
      return [...(isNew ? [title] : []), `${part(minute, two(at.getUTCSeconds()))} ${says}`];
    }),
    ...(isEachMinute ? [] : ['']),
  ];
}

const clock = (minute: string, second: string): string => `${minute}:${second}`;
const FORMS: readonly [string, Written][] = [
  ['a date and an hour in words', { heading: (d, h) => `~ ${d} September 2026, hour ${two(h)} ~`, part: clock }],
  ['the weekday', { heading: (d, h) => `${['Wed', 'Thu'][d - 16] ?? ''} ${d}.09.2026 / ${h} h`, part: clock }],
  ['the hour alone', { heading: (_, h) => `## ${h}`, part: (m, s) => `[${m}:${s}]`, top: DATED }],
  ['both ends of the hour', { heading: (_, h) => `from ${h} to ${(h + 1) % 24}`, part: clock, top: DATED }],
  [
    'half of the day',
    { heading: (_, h) => `* ${h % 12 === 0 ? 12 : h % 12} ${h < 12 ? 'am' : 'pm'} *`, part: clock, top: DATED },
  ],
  [
    'the hour, and at midnight the new day behind a comma',
    { heading: (_, h) => (h === 0 ? '## 0 h, Thursday 17 September' : `## ${h} h`), part: clock, top: DATED },
  ],
  ['minutes and seconds spelt', { heading: (_, h) => `# ${h} h`, part: (m, s) => `${m}m${s}s`, top: DATED }],
  [
    'Chinese minutes and seconds',
    { heading: (d, h) => `【9月${d}日 ${h}时】`, part: (m, s) => `${m}分${s}秒`, top: '2026年9月16日 UTC' },
  ],
  [
    'hour and minute',
    { heading: (_, h, m) => `${two(h)}:${m}`, part: (_, s) => `   :${s}`, top: DATED, isEachMinute: true },
  ],
  [
    'date, hour and minute',
    { heading: (d, h, m) => `2026-09-${d} ${two(h)}:${m}`, part: (_, s) => `   ${s}`, isEachMinute: true },
  ],
  [
    'hour and minute with a point between',
    { heading: (d, h, m) => `am ${d}. September 2026 um ${h}.${m}`, part: (_, s) => `  ${s}s`, isEachMinute: true },
  ],
  [
    'hour and minute with a point between, and a word behind',
    { heading: (d, h, m) => `${d}.09.2026, ${h}.${m} Uhr`, part: (_, s) => `${s}s:`, isEachMinute: true },
  ],
];

describe('a log whose headings state the greater part of its times', () => {
  it.each(FORMS)('is read under %s', async (_, form) => {
    const log = written(form);
    const { events } = await read(drafted(log).yaml, log.join('\n'), { zone: 'Europe/Madrid' });
    expect(events.map(({ atMs }) => atMs)).toEqual(NIGHT.map(({ at }) => at.getTime()));
  });

  it('keeps its headings apart from the lines above them', () => {
    const { yaml } = drafted(
      written({ heading: (d, h, m) => `2026-09-${d} ${two(h)}:${m}`, part: (_, s) => ` ${s}s`, isEachMinute: true }),
    );
    expect(yaml).not.toContain('entries: stamp');
  });

  it('is not read at wrong hours where there are no headings', () => {
    const log = written({ heading: () => '# a quiet night', part: clock, top: DATED });
    const { report } = drafted(log);
    expect(report.stamp?.pattern ?? '').not.toContain('{hour');
    expect(report.sections).toEqual([]);
  });

  it('takes no numbered headings for hours that do not go on as hours do', () => {
    const log = written({ heading: (_, h) => `## plan ${(h * 7) % 24}`, part: clock, top: DATED });
    const { report } = drafted(log);
    expect(report.stamp?.pattern ?? '').not.toContain('{hour');
    expect(report.sections).toEqual([]);
  });
});

describe('an hour without minutes', () => {
  const withBase = (pattern: string, base: string): string => `
dialect: 1
time: { pattern: "${pattern}", zone: utc, date: session }
sections: [ { begin: "^hour (?<time>.+)$", base: "${base}" } ]
lines: [ { when: opens, event: exposure-begin } ]
`;

  it('is what minutes below it count from', async () => {
    const { events } = await read(withBase('{elapsed} ', '{hour}'), 'hour 23\n59:30 opens\nhour 0\n00:10 opens', {
      sessionDate: '2026-09-16',
    });
    expect(events.map(({ atMs }) => new Date(atMs).toISOString())).toEqual([
      '2026-09-16T23:59:30.000Z',
      '2026-09-17T00:00:10.000Z',
    ]);
  });

  it('is no time of a line', () => {
    const { dialect, warnings } = loadDialect('tern.yaml', withBase('{hour} ', '{hour}'));
    expect(dialect).toBeNull();
    expect(warnings.map(({ message }) => message).join('\n')).toContain('needs {minute}');
  });
});
