import { expect, it } from 'vitest';
import { drafted } from './support/drafted.js';

const T0 = Date.UTC(2026, 9, 14, 20);
const at = (seconds: number): string => new Date(T0 + seconds * 1000).toISOString();

it('keeps what different paths say apart, also where all that follows is in quotes', () => {
  const lines = Array.from({ length: 24 }, (_, i) => [
    `${at(i * 200)} /cam/sub?f=Ha 200 "sub started"`,
    `${at(i * 200 + 150)} /cam/sub 200 "sub done"`,
    `${at(i * 200 + 152)} /shelf 200 "stored n${i}.fits"`,
    ...(i % 3 === 0 ? [`${at(i * 200 + 155)} /cam/idle 200 "waits for the dither"`] : []),
    ...(i % 3 === 0 ? [`${at(i * 200 + 156)} /sky 200 "seeing ${2 + (i % 4)}.1"`] : []),
  ]).flat();
  const reported = drafted(lines).report.rules.map(({ examples, events }) => [
    (examples[0] ?? '').split(' ')[0],
    events.map(({ event }) => event).join(' '),
  ]);
  expect(Object.fromEntries(reported)).toMatchObject({
    '/cam/sub?f=Ha': 'exposure-begin',
    '/cam/sub': 'exposure-end',
    '/shelf': 'frame-saved',
    '/cam/idle': 'dither-ready',
  });
});
