import { describe, expect, it } from 'vitest';
import { baseName, scrubber } from '../../../src/report/share/scrub.js';

const scrub = scrubber({
  words: ['Cierzo Hill', 'amaranta'],
  paths: ['logs/heron.jsonl', 'frames/heron/a b.fits'],
  coordinates: [40.4213, -1.1187],
});

describe('scrubber', () => {
  it.each([
    ['logs/heron.jsonl:214 says so', 'heron.jsonl:214 says so'],
    ['frames/heron/a b.fits is cut', 'a b.fits is cut'],
    ['/home/amaranta/x/rig.yaml', 'rig.yaml'],
    ['see C:\\Users\\amaranta\\rig.yaml:3', 'see rig.yaml:3'],
    ['on \\\\HOST\\share\\a.fits', 'on a.fits'],
    ['~/night/log.txt', 'log.txt'],
    ['file:///srv/night/log.txt', 'log.txt'],
    ['AMARANTA at cierzo hill', '[name] at [name]'],
    ['mail amaranta@observatorio.lan', 'mail [name]'],
    ['camera 7C41BB20196 warm', 'camera [number] warm'],
    ['Serial no. A12-77', 'serial [number]'],
    ['host 192.168.4.17', 'host [address]'],
    ['latitude 40.42 in the header', 'latitude [place] in the header'],
    ['SITELAT 40.4213', 'SITELAT [place]'],
    ['40°25′17″ N, 1°07′07″ W', '[place], [place]'],
  ])('%s', (before, after) => {
    expect(scrub(before)).toBe(after);
  });

  it.each([
    'The mount moved for 3.2 s of the open shutter; the limit is 1 s.',
    'Guiding RMS was 1.12″; the limit is one pixel, 1.29″.',
    'guide star lost from 01:07:07 to 01:08:00',
    'heron_20261019_182116.fits',
    'The target stood at 40.4° in mid-exposure.',
    'heron-20261019T182116810',
    'half of the frames and/or more',
    '120 s of 300 s',
    'NGC 281',
    'Sh2-129',
    'UGC 12591',
  ])('leaves figures and names of the trade alone: %s', (text) => {
    expect(scrub(text)).toBe(text);
  });

  it('knows no secrets where there are none', () => {
    expect(scrubber({ words: [], paths: [], coordinates: [] })('plain 40.4213')).toBe('plain 40.4213');
  });
});

describe('baseName', () => {
  it.each([
    ['a/b/c.fits', 'c.fits'],
    ['C:\\a\\b.fits', 'b.fits'],
    ['c.fits', 'c.fits'],
    ['a/b/', 'b'],
  ])('%s', (path, name) => {
    expect(baseName(path)).toBe(name);
  });
});
