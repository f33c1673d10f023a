import { describe, expect, it } from 'vitest';
import { ownFormat } from '../../../src/gather/dialects/draft/own-format.js';

const EVENT = '{"at":"2026-10-14T19:42:10.250Z","event":"exposure-begin","seconds":300}';

describe('nightledger’s own formats', () => {
  it('are known: the event log and the guiding log', () => {
    expect(ownFormat([EVENT, '', EVENT])).toBe('event log');
    expect(ownFormat(['\ufeffat,ra_arcsec,dec_arcsec,snr', '2026-10-14T19:42:10Z,0.1,0.2,30'])).toBe('guiding log');
  });

  it('are not taken from records of others', () => {
    expect(ownFormat([EVENT.replace('exposure-begin', 'shutter'), EVENT.replace('"at"', '"time"')])).toBeNull();
    expect(ownFormat(['{"at": broken'])).toBeNull();
    expect(ownFormat([])).toBeNull();
  });
});
