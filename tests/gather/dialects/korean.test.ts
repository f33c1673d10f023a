import { expect, it } from 'vitest';
import type { EventName } from '../../../src/model/index.js';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

const T0 = Date.UTC(2026, 9, 14, 21, 0, 7);
const two = (value: number): string => String(value).padStart(2, '0');

/** A time as Korean clocks tell it: half of the day in front, its units written to the numbers. */
function clock(seconds: number): string {
  const at = new Date(T0 + seconds * 1000);
  const hour = at.getUTCHours();
  return `${hour < 12 ? '오전' : '오후'} ${hour % 12 === 0 ? 12 : hour % 12}시 ${two(at.getUTCMinutes())}분 ${two(at.getUTCSeconds())}초`;
}

const lines = [
  '2026년 10월 14일 관측',
  ...Array.from({ length: 14 }, (_, i) => {
    const at = i * 340;
    return [
      `${clock(at)} 노출 개시 300초, 필터 Ha`,
      `${clock(at + 300)} 노출이 끝났습니다`,
      `${clock(at + 303)} 파일 저장됨 m33_${i}.fits`,
      `${clock(at + 305)} 디더링 개시 3.${i % 10}픽셀`,
      `${clock(at + 308)} 디더 완료`,
      `${clock(at + 321)} 가이드가 안정됨`,
    ];
  }).flat(),
];

it('reads dates, clocks of twelve hours, units and words of the trade in Korean', async () => {
  const { yaml } = drafted(lines);
  const { events } = await read(yaml, `${lines.join('\n')}\n`, { zone: 'UTC' });
  const times = (name: EventName): number[] =>
    events.filter(({ event }) => event === name).map(({ atMs }) => (atMs - T0) / 1000);
  const rounds = (after: number): number[] => Array.from({ length: 14 }, (_, i) => i * 340 + after);
  expect(times('exposure-begin'), yaml).toEqual(rounds(0));
  expect(times('exposure-end')).toEqual(rounds(300));
  expect(times('frame-saved')).toEqual(rounds(303));
  expect(times('dither-begin')).toEqual(rounds(305));
  expect(times('dither-end')).toEqual(rounds(308));
  expect(times('settling-end')).toEqual(rounds(321));
  expect(events.find(({ event }) => event === 'exposure-begin')).toMatchObject({ seconds: 300, filter: 'Ha' });
});

it('reads a date in front of each line', async () => {
  const dated = lines.slice(1).map((line) => `2026년 10월 14일 ${line}`);
  const { events } = await read(drafted(dated).yaml, `${dated.join('\n')}\n`, { zone: 'UTC' });
  expect(events.filter(({ event }) => event === 'exposure-end')).toHaveLength(14);
  expect(events[0]?.atMs).toBe(T0);
});
