import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';

const T0 = Date.UTC(2026, 9, 14, 20);
const stamp = (seconds: number): string => new Date(T0 + seconds * 1000).toISOString();
const eventsOf = ({ report }: ReturnType<typeof drafted>): string[] =>
  report.rules.flatMap(({ events }) => events.map(({ event }) => event)).sort();

describe('trains that a legend names a second time', () => {
  it('are distinguished by exposures that overlap', () => {
    const lines = [
      '# E = easter, S = souther, G = guider',
      ...Array.from({ length: 15 }, (_, i) => [
        `${stamp(i * 330)} E veil open 300 s`,
        `${stamp(i * 330 + 4)} S veil open 300 s`,
        `${stamp(i * 330 + 301)} E veil shut`,
        `${stamp(i * 330 + 305)} S veil shut`,
      ]).flat(),
    ];
    const { rules } = drafted(lines).report;
    expect([...new Set(rules.map(({ train }) => train))].sort()).toEqual(['easter', 'souther']);
    expect(rules).toHaveLength(4);
  });
});

describe('what a line tells besides', () => {
  it('may be a field that is set on all such lines', () => {
    const lines = Array.from({ length: 10 }, (_, i) => [
      `at=${stamp(i * 340)} what=veil does=opens seconds=300`,
      `at=${stamp(i * 340 + 300)} what=veil does=closes`,
      `at=${stamp(i * 340 + 303)} what=dither does=begins`,
      `at=${stamp(i * 340 + 306)} what=dither does=ends settling=1`,
      `at=${stamp(i * 340 + 320)} what=star does=settled`,
    ]).flat();
    expect(eventsOf(drafted(lines))).toContain('settling-begin');
  });
});

describe('a log of the guiding alone', () => {
  const lines = Array.from({ length: 12 }, (_, i) => [
    ...(i % 6 === 0 ? [`${stamp(i * 200)} Stern gefasst, Regelung beginnt, schwingt ein`] : []),
    ...Array.from({ length: 8 }, (_, k) => `${stamp(i * 200 + 40 + k * 12)} Wert ${(k % 3) - 1}.4${k} +0.2${i % 7}`),
    `${stamp(i * 200 + 150)} Versatz beginnt`,
    `${stamp(i * 200 + 153)} Versatz fertig, schwingt ein`,
    `${stamp(i * 200 + 170)} eingeschwungen`,
    ...(i === 7
      ? [`${stamp(i * 200 + 172)} Seitenwechsel beginnt`, `${stamp(i * 200 + 175)} Seitenwechsel fertig`]
      : []),
    ...(i % 6 === 5 ? [`${stamp(i * 200 + 180)} Regelung beendet`] : []),
  ]).flat();
  const names = eventsOf(drafted([`# Bogensekunden: RA, DE`, ...lines]));

  it('reads words that mean something at the end of a line alone', () => {
    expect(names.filter((name) => name === 'settling-begin')).toHaveLength(2);
  });

  it('tells of the other side of the pier', () => {
    expect(names).toEqual(expect.arrayContaining(['flip-begin', 'flip-end']));
  });
});
