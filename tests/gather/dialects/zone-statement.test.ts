import { describe, expect, it } from 'vitest';
import { zoneIn } from '../../../src/gather/dialects/draft/time/zone-statement.js';

/** Statements of our own wording, in the languages that logs are likely to be in. */
const STATEMENTS: readonly (readonly [string, string])[] = [
  ['all times UTC', 'utc'],
  ['Zeit: UTC+2', '+02:00'],
  ['times are GMT -03:30', '-03:30'],
  ['letní čas, UT+2', '+02:00'],
  ['ora: quella del paese (due ore avanti sul tempo universale)', '+02:00'],
  ['village clock, two ahead of Greenwich', '+02:00'],
  ['Ortszeit = Weltzeit + 2 h', '+02:00'],
  ['Uhr: eine Stunde vor Weltzeit', '+01:00'],
  ['montre en avance de 2 heures sur le temps universel', '+02:00'],
  ['reloj: 1 hora por delante del tiempo universal', '+01:00'],
  ['zegar: dwie godziny przed czasem uniwersalnym', '+02:00'],
  ['hodiny o dvě hodiny napřed proti UT', '+02:00'],
  ['现在时刻比世界时早两小时', '+02:00'],
  ['clock is 3 hours behind UTC', '-03:00'],
  ['heure locale', 'site'],
  ['Datum Zeit(MESZ) Teil', 'site'],
  ['čas SEČ, UTC+1', '+01:00'],
  ['Ortszeit', 'site'],
  ['saatler yaz saati (UTC+3 değil, UTC+2)', '+02:00'],
  ['Uhr geht nach MESZ, nicht UTC', 'site'],
  ['not UTC+1 but UTC+2', '+02:00'],
  ['temps universel', 'utc'],
  ['世界時', 'utc'],
  ['nothing of the kind', 'site'],
  ['UT\tuittrillen na dither', 'site'],
  ['TU = tuning the focus', 'site'],
  ['UT = universal time', 'utc'],
  ['times: clock on the wall', 'site'],
  ['番号,日付,時刻(日本時間),装置', 'Asia/Tokyo'],
  ['时间为北京时间', 'Asia/Shanghai'],
  ['время московское, МСК', 'Europe/Moscow'],
  ['timezone: Atlantic/Canary', 'Atlantic/Canary'],
  ['Uhrzeit: Europe/Madrid', 'Europe/Madrid'],
  ['times UTC, site in Europe/Madrid', 'utc'],
  ['frames in Europe/Madrid', 'site'],
];

describe('the zone that the head of a log states', () => {
  it('is not that of a line further down once its columns name one', () => {
    expect(zoneIn(['date | clock (CEST) | what', 'METEO;20251012204033;UTC;80;11.3'])).toBe('site');
  });

  it('is that of the clock from which the log goes on, where the head states two', () => {
    const head = ['local 2026-10-21 21:07:39 = 19:07:39 UTC'];
    const at = (hours: number): number => (hours * 3600 + 7 * 60 + 41) * 1000;
    expect(zoneIn(head, at(21))).toBe('+02:00');
    expect(zoneIn(head, at(19))).toBe('utc');
  });

  it.each(STATEMENTS)('%s', (text, zone) => {
    expect(zoneIn(['LOG OF A NIGHT', text])).toBe(zone);
  });
});
