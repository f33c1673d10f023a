import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

const T0 = Date.UTC(2026, 9, 14, 20);
const clock = (seconds: number): string => new Date(T0 + seconds * 1000).toISOString().slice(11, 19);

/** Exposures, before each second one a shift, and totals below them. */
const rows = (no: string, total: string): string[] => [
  ...Array.from({ length: 24 }, (_, i) => {
    const at = i * 330;
    const shift = i % 2 === 0 ? [clock(at - 20), i % 8 === 0 ? no : clock(at - 4)] : ['', ''];
    return ['L', '300', clock(at), clock(at + 300), `h_${i}.fits`, ...shift].join(';');
  }),
  `${total};7200;;;;;`,
  `L;7200;;;;;`,
];

describe('a table of exposures with totals below it', () => {
  it.each([
    ['French', ['Filtre', 'Pose (s)', 'Ouverture', 'Fermeture', 'Fichier', 'Décalé à', 'Stabilisé à'], 'non'],
    ['German', ['Filter', 'Dauer (s)', 'Geöffnet', 'Geschlossen', 'Datei', 'Versatz um', 'Beruhigt um'], 'nein'],
  ])('takes the times of the exposures for those of its rows: %s', async (_, head, no) => {
    const lines = ['2026-10-14 UTC', head.join(';'), ...rows(no, 'total')];
    const { events } = await read(drafted(lines).yaml, lines.join('\n'), { zone: 'UTC', sessionDate: '2026-10-14' });
    const of = (name: string): number[] =>
      events.flatMap(({ event, atMs }) => (event === name ? [(atMs - T0) / 1000] : [])).sort((a, b) => a - b);
    expect(of('exposure-begin')).toEqual(Array.from({ length: 24 }, (_, i) => i * 330));
    expect(of('exposure-end')).toEqual(Array.from({ length: 24 }, (_, i) => i * 330 + 300));
    expect(of('settling-end')).toHaveLength(9);
  });
});
