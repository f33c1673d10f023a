import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

const T0 = Date.UTC(2027, 11, 31, 21);
const MONTHS = {
  en: ['Jan', 'Dec'],
  es: ['ene', 'dic'],
} as const;
/** An exposure each six minutes, past the end of the year. */
const SHOTS = Array.from({ length: 36 }, (_, i) => T0 + i * 360_000);

/** `Dec 31, 9:05:00 PM` or `31 dic 21:05:00`. */
function stamp(atMs: number, language: keyof typeof MONTHS): string {
  const at = new Date(atMs);
  const month = MONTHS[language][at.getUTCMonth() === 0 ? 0 : 1];
  const [hour, rest] = [at.getUTCHours(), at.toISOString().slice(13, 19)];
  return language === 'en'
    ? `${month} ${at.getUTCDate()}, ${hour % 12 || 12}${rest} ${hour < 12 ? 'AM' : 'PM'}`
    : `${at.getUTCDate()} ${month} ${String(hour).padStart(2, '0')}${rest}`;
}

const TABLE = [
  'All times are UTC.',
  'Started;Took;What;Details',
  ...SHOTS.flatMap((atMs, i) => [
    `${stamp(atMs, 'en')};5 min 0 sec;Exposure;wren_${i + 1}.fits`,
    `${stamp(atMs + 303_000, 'en')};4 sec;Dither;`,
    `${stamp(atMs + 307_000, 'en')};20 sec;Settle;`,
  ]).reverse(),
  'Made Jan 1, 2028',
];
const LOG = [
  ...SHOTS.flatMap((atMs, i) => [
    `${stamp(atMs, 'es')} empieza la exposición ${i + 1}: M 81, L, 300 s`,
    `${stamp(atMs + 300_000, 'es')} fin de la exposición ${i + 1}`,
  ]),
  'Registro guardado el 1 ene 2028',
];

describe('a log whose stamps have no year, which only its last line states', () => {
  it.each([
    ['a table with the newest row on top', TABLE, 'night.csv'],
    ['a Spanish log', LOG, 'night.log'],
  ])('is %s', async (_, lines, name) => {
    const { events } = await read(drafted(lines, name).yaml, `${lines.join('\n')}\n`, { zone: 'UTC', name });
    const begins = events.flatMap(({ event, atMs }) => (event === 'exposure-begin' ? [atMs] : []));
    expect(begins.sort((a, b) => a - b)).toEqual(SHOTS);
  });
});
