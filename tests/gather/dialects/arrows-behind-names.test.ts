import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';

const T0 = Date.UTC(2026, 9, 14, 20);
const at = (seconds: number): string => new Date(T0 + seconds * 1000).toISOString().slice(0, 19).replace('T', ' ');

/** What the lines of a draft's rules are taken for, by their first example. */
function eventsRead(lines: readonly string[]): Record<string, string> {
  return Object.fromEntries(
    drafted(lines).report.rules.map(({ events, examples }) => [
      examples[0] ?? '',
      events.map(({ event }) => event).join(' '),
    ]),
  );
}

/** A night in which each line names a device and, behind an arrow, the state that it has come to. */
const night = (say: Record<string, string>): string[] => [
  `${at(0)} ${say.slews}`,
  `${at(50)} ${say.there}`,
  `${at(52)} ${say.focuses}`,
  `${at(150)} ${say.focused}`,
  ...Array.from({ length: 24 }, (_, i) => [
    ...(i % 4 === 3
      ? [
          `${at(200 + i * 200 - 22)} ${say.dithers}`,
          `${at(200 + i * 200 - 18)} ${say.settles}`,
          `${at(200 + i * 200 - 4)} ${say.settled}`,
        ]
      : []),
    `${at(200 + i * 200)} ${say.exposes}`,
    `${at(200 + i * 200 + 150)} ${say.closed}`,
    ...(i % 8 === 7 ? [`${at(200 + i * 200 + 152)} ${say.focuses}`, `${at(200 + i * 200 + 172)} ${say.focused}`] : []),
  ]).flat(),
];

describe('a log that names a device and, behind an arrow, what it has come to', () => {
  it.each([
    [
      'English',
      {
        slews: 'mount -> SLEWING (M 31)',
        there: 'mount -> IN PLACE',
        focuses: 'heron -> FOCUSING (at 12450)',
        focused: 'heron -> FOCUSED (stars 1.9 px)',
        dithers: 'mount -> DITHERING (4.1 px)',
        settles: 'guider -> DITHER DONE, SETTLING',
        settled: 'guider -> SETTLED',
        exposes: 'heron -> EXPOSING (Ha, 150 s)',
        closed: 'heron -> EXPOSURE FINISHED',
      },
    ],
    [
      'Polish',
      {
        slews: 'montaż → NAJEŻDŻA (M 31)',
        there: 'montaż → NA MIEJSCU',
        focuses: 'heron → OSTRZY (pozycja 12450)',
        focused: 'heron → WYOSTRZONE (gwiazdy 1,9 px)',
        dithers: 'montaż → PRZESUWA (4,1 px)',
        settles: 'guider → PRZESUNIĘTO, USPOKAJA SIĘ',
        settled: 'guider → USPOKOJONE',
        exposes: 'heron → NAŚWIETLA (Ha, 150 s)',
        closed: 'heron → NAŚWIETLANIE ZAKOŃCZONE',
      },
    ],
  ])('in %s', (_, say) => {
    const found = eventsRead(night(say));
    expect(found[say.focused]).toBe('focus-end');
    expect(found[say.settled]).toBe('settling-end');
    expect(found[say.closed]).toBe('exposure-end');
    expect(found[say.exposes]).toBe('exposure-begin');
  });
});

it('still takes arrows between two states for changes of state', () => {
  const lines = Array.from({ length: 20 }, (_, i) => [
    `${at(i * 200)} camera: idle -> exposing`,
    `${at(i * 200 + 150)} camera: exposing -> reading`,
    `${at(i * 200 + 153)} camera: reading -> idle`,
  ]).flat();
  expect(Object.values(eventsRead(lines)).join(' ')).toContain('exposure-begin');
});
