import { expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { brief, read } from './support/read.js';

interface Step {
  readonly at: number;
  readonly lasts?: number;
  readonly is: string;
  readonly kept?: number;
  readonly more?: Readonly<Record<string, string | number>>;
}

/** A night of two cameras, each step at its beginning, seconds from the head; the files are written 4 s later. */
const NIGHT = Array.from({ length: 16 }, (_, i): Step[] => {
  const at = 60 + i * 330;
  const wheel: Step[] = i % 4 === 0 ? [{ at: at - 30, lasts: 6.2, is: 'filter wheel', more: { to: 'Ha' } }] : [];
  return [
    ...wheel,
    { at, lasts: 240.1, is: 'exposure', kept: at + 244.4, more: { cam: 'left', file: `left_${i}.fits` } },
    { at: at + 1.1, lasts: 180.1, is: 'exposure', kept: at + 185.5, more: { cam: 'right', file: `right_${i}.fits` } },
    { at: at + 250, lasts: 2.4, is: 'dither', more: { px: 3.1 + (i % 4) } },
    { at: at + 252.6, lasts: 11.5 + (i % 3), is: 'settling' },
  ];
}).flat();
const record = ({ at, lasts, is, kept, more }: Step): string =>
  JSON.stringify({
    sec: at,
    ...(lasts === undefined ? {} : { lasted: lasts }),
    is,
    ...more,
    ...(kept === undefined ? {} : { kept }),
  });
const HEAD = '{"zero": "2026-10-14T20:00:00Z", "steps": [';
const instant = (seconds: number): string => new Date(Date.UTC(2026, 9, 14, 20) + seconds * 1000).toISOString();

it.each([
  ['and when its file was written', NIGHT],
  ['and nothing else', NIGHT.map(({ kept: _, ...step }): Step => step)],
])('rows at the beginning that say how long it took %s', async (_, night) => {
  const lines = [HEAD, ...night.map((step, i) => ` ${record(step)}${i < night.length - 1 ? ',' : ''}`), ']}'];
  const { yaml } = drafted(lines);
  const events = brief(await read(yaml, `${lines.join('\n')}\n`)).map((text) => text.replace(/ \{.*/, ''));
  expect(events).toContain(`${instant(60)} exposure-begin left`);
  expect(events).toContain(`${instant(300.1)} exposure-end left`);
  expect(events).toContain(`${instant(312.6)} settling-begin`);
  expect(events).toContain(`${instant(324.1)} settling-end`);
  expect(events).toContain(`${instant(30)} filter-begin`);
  const saved = events.filter((text) => text.includes('frame-saved'));
  expect(saved.includes(`${instant(304.4)} frame-saved left`)).toBe(night === NIGHT);
});

it('guiding samples in rows of a document that counts count as it does', async () => {
  const rows = Array.from({ length: 60 }, (_, i) => [70 + i * 85, ((i * 7) % 11) / 10 - 0.5, ((i * 5) % 9) / 10 - 0.4]);
  const lines = [
    HEAD,
    ...NIGHT.map((step, i) => ` ${record(step)}${i < NIGHT.length - 1 ? ',' : ''}`),
    '], "errors": [',
    ...rows.map(([at, ra, dec], i) => ` [${at}, ${ra?.toFixed(2)}, ${dec?.toFixed(2)}]${i < 59 ? ',' : ''}`),
    ']}',
  ];
  const { yaml } = drafted(lines);
  const { guiding } = await read(yaml, `${lines.join('\n')}\n`);
  expect(guiding?.atMs).toHaveLength(60);
  expect(new Date(guiding?.atMs[1] ?? NaN).toISOString()).toBe(instant(155));
  expect(guiding?.raArcsec[1]).toBeCloseTo(0.2);
});

it('seconds in brackets mean on short things what they mean on long ones', () => {
  const stamp = (seconds: number): string => instant(seconds).slice(0, 19);
  const lines = Array.from({ length: 24 }, (_, i) => [
    ...(i % 6 === 0
      ? [
          `${stamp(i * 420 - 124)} Rad auf Filter L gestellt (${5 + (i % 4)},1 s)`,
          `${stamp(i * 420 - 22)} fokussiert, Position ${9000 + i}, Sterne 2,0${i % 10} (${90 + (i % 5)},5 s)`,
        ]
      : []),
    `${stamp(i * 420 + 200)} NGC 7000, L, belichtet (180 s)`,
    `${stamp(i * 420 + 203)} abgelegt als l_${i}.fits`,
    `${stamp(i * 420 + 206)} um ${2 + (i % 5)},3 Pixel gedithert (1,${1 + (i % 8)} s)`,
    `${stamp(i * 420 + 219)} ruhig (${12 + (i % 3)},0 s)`,
  ]).flat();
  const { report } = drafted(lines);
  const rule = report.rules.find(({ examples }) => examples[0]?.includes('gedithert'));
  expect(rule?.events).toEqual([{ event: 'dither-end' }]);
  expect(rule?.lasted).toBe('took');
});
