import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';

const two = (value: number): string => String(value).padStart(2, '0');
const at = (minutes: number): string => `2026-10-14 ${two(20 + Math.floor(minutes / 60))}:${two(minutes % 60)}:05`;
/** A hand that writes some words in full. */
const night = (whole: string, short: string, begun: string, over: string, degrees: string): string[] => [
  `${at(0)} Sensor -5,0 ${degrees}`,
  `${at(1)} Sensor -5,0 ${degrees}`,
  ...Array.from({ length: 20 }, (_, i) => [
    `${at(2 + i * 6)} ${i % 3 === 0 ? whole : short} ${i + 1} ${begun}, 300 s`,
    `${at(7 + i * 6)} ${i % 4 === 0 ? whole : short} ${i + 1} ${over}`,
  ]).flat(),
];

describe('words that a hand shortens', () => {
  it.each([
    ['Belichtung', 'Bel.', 'an', 'fertig', 'Grad'],
    ['expozice', 'expoz.', 'zahájena', 'hotova', 'stupňů'],
    ['exposição', 'expos.', 'começou', 'terminou', 'graus'],
  ])('are those that it writes in full elsewhere: %s, %s', (...words) => {
    const { yaml } = drafted(night(...words));
    const events = [...yaml.matchAll(/^ {4}event: (\S+)$/gm)].map(([, event]) => event);
    // Four kinds of line, two of them short.
    expect(
      events.filter((event) => event === 'exposure-begin'),
      yaml,
    ).toHaveLength(2);
    expect(events.filter((event) => event === 'exposure-end')).toHaveLength(2);
    // What a sensor is at says nothing of what its cooler does, as words for degrees do of no wheel.
    expect(events).not.toContain('cooler');
    expect(events.filter((event) => event?.startsWith('filter'))).toEqual([]);
  });
});
