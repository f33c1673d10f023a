import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { EXPOSURES, SHOTS, clock, filterOf, iso, only, eventsRead, type Shot } from './support/night-of-tables.js';

const uncut = SHOTS.filter(({ cutS }) => cutS === undefined).slice(0, 80);
const events = uncut.flatMap(({ train, atS }) => [
  `${iso(atS)} exposure-begin ${train}`,
  `${iso(atS + 300)} exposure-end ${train}`,
]);
const middle = ({ atS }: Shot): number => atS + 150;

describe('the time of the middle of each exposure', () => {
  it.each([
    ['English', 'Mid-exposure (UT);camera;filter;exp (s);file', 'Night of 16 January 2026'],
    ['German', 'Mitte (UT);Kamera;Filter;Belichtung (s);Datei', 'Nacht vom 16. Januar 2026'],
    ['Spanish', 'medio (TU);cámara;filtro;exp. (s);archivo', 'Noche del 16 de enero de 2026'],
  ])('in a table in %s is half its length after its beginning', async (_, head, night) => {
    const rows = uncut.map((shot) => `${clock(middle(shot))};${shot.train};${filterOf(shot)};300;${shot.file}`);
    const lines = [`Cierzo Hill;${night}`, head, ...rows];
    expect(drafted(lines).yaml).toMatch(/ago: .*\/ 2/);
    expect(only(await eventsRead(lines), EXPOSURES)).toEqual([...events].sort());
  });
});

describe('Julian dates of which a head takes whole days off', () => {
  /** The Julian date of 1970, as the Explanatory Supplement to the Astronomical Almanac has it (from memory). */
  const JULIAN_OF_1970 = 2_440_587.5;
  const julian = (s: number): number => Date.parse(iso(s)) / 86_400_000 + JULIAN_OF_1970;

  it.each([
    ['English', 2_461_000, 'Times: JD - 2461000', 'mid JD'],
    ['French', 2_461_000, 'Jours juliens (JD), moins 2461000', 'milieu JD'],
  ])('are read in %s', async (_, off, head, name) => {
    const rows = uncut.map((shot) =>
      [(julian(middle(shot)) - off).toFixed(6), shot.train, filterOf(shot), '300', shot.file].join('   '),
    );
    const lines = ['Cierzo Hill', head, '', `${name}   camera   filter   exp [s]   file`, ...rows];
    const found = only(await eventsRead(lines), EXPOSURES).map((line) => line.replace(/\.\d{3}Z/, 'Z'));
    expect(found).toHaveLength(events.length);
    const instants = found.map((line) => Math.round(Date.parse(line.split(' ')[0] ?? '') / 10_000));
    const expected = [...events].sort().map((line) => Math.round(Date.parse(line.split(' ')[0] ?? '') / 10_000));
    expect(instants.filter((at, i) => Math.abs(at - (expected[i] ?? 0)) > 1)).toEqual([]);
  });
});
