/** A capture log in a format of our own invention, for the benchmark: the same lines for the same seed. */
import { closeSync, openSync, writeFileSync, writeSync } from 'node:fs';
import { uniformFloat32 } from 'pure-rand/distribution/uniformFloat32';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';

/** Uniform numbers in [0, 1), the same for the same seed. */
function random(seed) {
  const generator = xoroshiro128plus(seed);
  return () => uniformFloat32(generator);
}

const FILTERS = ['L', 'R', 'G', 'B', 'Ha', 'OIII', 'SII'];

/** Kinds of line that a dialect pattern is for. */
const EVENTS = [
  (_, f) => `camera | opens shutter for ${f.seconds}.0 s through ${f.filter} on ${f.target}`,
  () => 'camera | shutter is closed again',
  (n) => `camera | wrote frames/heron/light_${String(n).padStart(6, '0')}.fits to disk`,
  () => 'cycle  | heron is ready for a dither',
  (_, f) => `mount  | dither of ${f.pixels} px begins`,
  () => 'mount  | dither is over',
  () => 'guider | waiting for the star to settle',
  (_, f) => `guider | settled at ${f.pixels} px`,
  (_, f) => `focus  | search begins because temperature fell by ${f.pixels} K`,
  (n, f) => `focus  | search ends, star ${f.pixels} px, position ${n % 20000}`,
  (_, f) => `wheel  | turning to ${f.filter}`,
  () => 'wheel  | in place',
  (_, f) => `mount  | slewing to ${f.target}`,
  () => 'mount  | on target',
  () => 'mount  | crossing the meridian now',
  () => 'mount  | now west of the pier',
  () => 'guider | star vanished',
  () => 'guider | star is back',
  (_, f) => `camera | sensor at -${f.pixels} of -10.0 C`,
  () => 'sky    | roof closed, rain sensor wet',
];

/** Chatter that no pattern is for. */
const NOISE = [
  (n) => `guider | pulse ${n % 97} ms west, ${n % 53} ms north, residual ${(n % 211) / 100}`,
  (n) => `net    | request ${n} answered in ${n % 40} ms with status 200`,
  (n) => `mount  | encoder reads ${n * 13} and ${n * 7}, no correction applied`,
  (n) => `power  | rail two carries ${(n % 300) / 100} A at 12.${n % 10} V`,
  (n) => `camera | downloading row ${n % 4176} of 4176 over the cable`,
  (n) => `sky    | cloud sensor ${(n % 190) / 10 - 30} C, wind ${(n % 90) / 10} m/s, dew point ${(n % 70) / 10} C`,
];

/** The patterns for EVENTS, in RE2 syntax with named groups; grep and Python get them without the names. */
export const PATTERNS = [
  'opens shutter for (?<seconds>[0-9.]+) s through (?<filter>[A-Za-z]+) on (?<target>.+)',
  'shutter is closed again',
  'wrote (?<file>[^ ]+) to disk',
  '(?<who>[a-z]+) is ready for a dither',
  'dither of (?<pixels>[0-9.]+) px begins',
  'dither is over',
  'waiting for the star to settle',
  'settled at (?<reached>[0-9.]+) px',
  'search begins because (?<why>.+)',
  'search ends, star (?<sizeAfter>[0-9.]+) px, position (?<position>[0-9]+)',
  'turning to (?<to>[A-Za-z]+)',
  'wheel +[|] in place',
  'slewing to (?<target>.+)',
  'mount +[|] on target',
  'crossing the meridian',
  'now (west|east) of the pier',
  'star vanished',
  'star is back',
  'sensor at (?<temperature>[-0-9.]+) of (?<setpoint>[-0-9.]+) C',
  'roof closed, (?<why>.+)',
];

const EVENT_NAMES = [
  'exposure-begin',
  'exposure-end',
  'frame-saved',
  'dither-ready',
  'dither-begin',
  'dither-end',
  'settling-begin',
  'settling-end',
  'focus-begin',
  'focus-end',
  'filter-begin',
  'filter-end',
  'slew-begin',
  'slew-end',
  'flip-begin',
  'flip-end',
  'star-gap-begin',
  'star-gap-end',
  'cooler',
  'hold-begin',
];

/** The dialect that reads the log. @param patterns how each pattern is written, in the order of PATTERNS */
export function dialectText(patterns = PATTERNS) {
  const rules = patterns.map((pattern, i) => `  - { when: ${JSON.stringify(pattern)}, event: ${EVENT_NAMES[i]} }`);
  return [
    'dialect: 1',
    'name: bench',
    'time: { pattern: "{year}-{month}-{day} {hour}:{minute}:{second}", zone: Europe/Madrid }',
    'lines:',
    ...rules,
    '',
  ].join('\n');
}

/**
 * Writes the log.
 *
 * @param share which share of the lines is an event; the rest is noise
 */
export function writeLog(path, lines, share, seed = 20261014) {
  const next = random(seed);
  const file = openSync(path, 'w');
  let atMs = Date.UTC(2026, 9, 14, 18, 30);
  let chunk = [];
  for (let n = 0; n < lines; n++) {
    atMs += Math.floor(next() * 80);
    const facts = {
      seconds: 60 * (1 + Math.floor(next() * 10)),
      filter: FILTERS[Math.floor(next() * FILTERS.length)],
      target: next() < 0.5 ? 'NGC 281' : 'IC 1396',
      pixels: (1 + next() * 8).toFixed(1),
    };
    const from = next() < share ? EVENTS : NOISE;
    const make = from[Math.floor(next() * from.length)];
    const stamp = new Date(atMs).toISOString().replace('T', ' ').slice(0, 23);
    chunk.push(`${stamp} ${make(n, facts)}\n`);
    if (chunk.length === 10_000) {
      writeSync(file, chunk.join(''));
      chunk = [];
    }
  }
  writeSync(file, chunk.join(''));
  closeSync(file);
}

/** Lines of our own event log. */
export function writeEvents(path, count) {
  const kinds = [
    { event: 'exposure-begin', filter: 'Ha', seconds: 300, target: 'NGC 281' },
    { event: 'exposure-end' },
    { event: 'frame-saved', file: 'frames/heron/NGC281_Ha_0001.fits' },
    { event: 'dither-ready' },
    { event: 'dither-begin', pixels: 3.5 },
    { event: 'dither-end' },
    { event: 'settling-begin' },
    { event: 'settling-end', ok: true },
  ];
  const begin = Date.UTC(2026, 9, 14, 19);
  writeFileSync(
    path,
    Array.from(
      { length: count },
      (_, i) => `${JSON.stringify({ at: new Date(begin + i * 250).toISOString(), ...kinds[i % kinds.length] })}\n`,
    ).join(''),
  );
}

/** Rows of our own guiding log. */
export function writeGuiding(path, count) {
  const begin = Date.UTC(2026, 9, 14, 19);
  const out = openSync(path, 'w');
  writeSync(out, 'at,ra_arcsec,dec_arcsec,snr\n');
  writeSync(
    out,
    Array.from(
      { length: count },
      (_, i) =>
        `${new Date(begin + i * 1000).toISOString()},${(Math.sin(i) * 0.8).toFixed(3)},${(Math.cos(i) * 0.7).toFixed(3)},${(20 + Math.sin(i / 100) * 5).toFixed(1)}\n`,
    ).join(''),
  );
  closeSync(out);
}
