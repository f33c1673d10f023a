import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

const T0 = 1_791_918_000;

/** Errors about zero, the same at every run: two sums of sines. */
const SAMPLES = Array.from({ length: 90 }, (_, i) => ({
  s: i * 2.5,
  ra: Number((0.6 * Math.sin(i * 1.7) + 0.1 * Math.cos(i)).toFixed(2)),
  dec: Number((0.4 * Math.cos(i * 2.3)).toFixed(2)),
}));

async function samplesOf(
  lines: readonly string[],
): Promise<{ yaml: string; at: number[]; ra: number[]; dec: number[] }> {
  const { yaml } = drafted(lines);
  const { guiding } = await read(yaml, `${lines.join('\n')}\n`, { zone: 'UTC' });
  return {
    yaml,
    at: [...(guiding?.atMs ?? [])].map((atMs) => atMs / 1000 - T0),
    ra: [...(guiding?.raArcsec ?? [])],
    dec: [...(guiding?.decArcsec ?? [])],
  };
}

const stamp = (s: number): string => new Date((T0 + s) * 1000).toISOString().replace('T', ' ').replace('Z', '');
const clock = (s: number): string => stamp(s).slice(11);
const inThrees = SAMPLES.flatMap((_, i) => (i % 3 === 0 ? [SAMPLES.slice(i, i + 3)] : []));
const inFives = SAMPLES.flatMap((_, i) => (i % 5 === 0 ? [SAMPLES.slice(i, i + 5)] : []));
const comma = (value: number): string => String(value).replace('.', ',');

/** Layouts of our own. */
const LAYOUTS: readonly (readonly [string, readonly string[], number])[] = [
  ['a line for each', SAMPLES.map(({ s, ra, dec }) => `${stamp(s)} errors: ra ${ra} dec ${dec} arcsec`), 1],
  [
    'decimal commas, in pixels, the scale at the head',
    [
      '# guider: 2,5 arcsec/px',
      ...SAMPLES.map(({ s, ra, dec }) => `${stamp(s)}; guide; ra=${comma(ra)} px; dec=${comma(dec)} px`),
    ],
    2.5,
  ],
  [
    'pairs, the scale on a line in the middle',
    [
      ...SAMPLES.slice(0, 3).map(({ s, ra, dec }) => `t=${T0 + s} unit=guide err_ra=${ra} err_dec=${dec}`),
      `t=${T0 + 6} unit=guide scale_arcsec_px=2`,
      ...SAMPLES.slice(3).map(({ s, ra, dec }) => `t=${T0 + s} unit=guide err_ra=${ra} err_dec=${dec}`),
    ],
    2,
  ],
  [
    'three to a line, each with a clock',
    inThrees.map(
      (three) =>
        `${stamp(three[0]?.s ?? 0)} guide ${three.map(({ s, ra, dec }) => `${clock(s)} ${ra}/${dec}`).join(' ; ')}`,
    ),
    1,
  ],
  [
    'five pairs to a line, whose time is that of the last',
    [
      'samples: five a line, the time is that of the last',
      ...inFives.map(
        (five) =>
          `${stamp(five[4]?.s ?? 0)} errors x5 / 2.5 s: ${five.map(({ ra, dec }) => `(${ra};${dec})`).join(' ')}`,
      ),
    ],
    1,
  ],
  [
    'two lists right behind the stamp, whose time is that of the last sample',
    [
      'samples: five a line, 2.5 s apart, the last of them at the time of the line',
      ...inFives.map(
        (five) =>
          `${stamp(five[4]?.s ?? 0)} - ra ${five.map(({ ra }) => ra).join(' ')} | dec ${five.map(({ dec }) => dec).join(' ')}`,
      ),
    ],
    1,
  ],
  [
    'two lists to a record, whose time is that of the first sample',
    [
      '{"about":"the time of a batch of samples is that of its first"}',
      ...inFives.map((five) =>
        JSON.stringify({
          t: T0 + (five[0]?.s ?? 0),
          what: 'batch',
          dt: 2.5,
          ra: five.map(({ ra }) => ra),
          dec: five.map(({ dec }) => dec),
        }),
      ),
    ],
    1,
  ],
  [
    'sentences that name the axes behind the errors',
    SAMPLES.map(({ s, ra, dec }) => `${stamp(s)} vamos con error de ${dec}" en Dec y ${ra}" en AR`),
    1,
  ],
  [
    'raw errors before smoothed ones',
    SAMPLES.map(({ s, ra, dec }) => `${stamp(s)} raw ${ra} ${dec} smoothed ${ra / 2} ${dec / 2} arcsec`),
    1,
  ],
  [
    'a table that counts its rows and seconds',
    [
      `guiding from ${stamp(0)}`,
      'row,seconds,dx,dy,ra,dec',
      ...SAMPLES.map(({ s, ra, dec }, i) => `${i + 1},${s.toFixed(2)},${ra / 2},${dec / 2},${ra},${dec}`),
    ],
    1,
  ],
  [
    'objects beside others with sentences',
    [
      ...Array.from({ length: 30 }, (_, i) =>
        JSON.stringify({ at: T0 - 900 + i * 30, says: `exposure started: ${i} s, frame ${i}` }),
      ),
      ...SAMPLES.map(({ s, ra, dec }) => JSON.stringify({ at: T0 + s, ra, dec })),
    ],
    1,
  ],
  [
    'thousandths of an arcsecond',
    SAMPLES.map(
      ({ s, ra, dec }) => `${stamp(s)} residual ra_mas=${Math.round(ra * 1000)} dec_mas=${Math.round(dec * 1000)}`,
    ),
    1,
  ],
  [
    'rows of numbers in records, counted from an epoch above them',
    [
      ...Array.from(
        { length: 20 },
        (_, i) => `{"at": ${T0 - 4000 + i * 60}, "what": "shutter open",\n "for": 50}`,
      ).flatMap((one) => one.split('\n')),
      `"since": ${T0}, "rows": [`,
      ...SAMPLES.map(({ s, ra, dec }) => `  [${s.toFixed(1)}, ${ra}, ${dec}],`),
    ],
    1,
  ],
];

describe('guiding samples', () => {
  it.each(LAYOUTS)('are found in %s', async (_, lines, scale) => {
    const found = await samplesOf(lines);
    expect(found.yaml).toContain('guiding:');
    // The first three of the log with the scale in the middle stand before it.
    const skipped = found.ra.length === SAMPLES.length ? 0 : 3;
    expect(found.ra).toHaveLength(SAMPLES.length - skipped);
    expect(found.at).toEqual(SAMPLES.slice(skipped).map(({ s }) => s));
    SAMPLES.slice(skipped).forEach(({ ra, dec }, i) => {
      expect(found.ra[i]).toBeCloseTo(ra * scale, 6);
      expect(found.dec[i]).toBeCloseTo(dec * scale, 6);
    });
  });

  it('are not found where numbers do not swing about zero', async () => {
    const { yaml } = await samplesOf(
      Array.from({ length: 60 }, (_, i) => `${stamp(i * 60)} weather 12.${i % 9} 56.${i % 7} 3.${i % 5}`),
    );
    expect(yaml).not.toContain('guiding:');
  });

  it.each(['offset', 'Versatz'])(
    'are those beside which the signal of the star stands, whatever they are called: %s',
    async (word) => {
      const lines = SAMPLES.map(({ s, ra, dec }) => `${stamp(s)} ${word} ra=${ra} dec=${dec} snr=31`);
      expect((await samplesOf(lines)).ra).toEqual(SAMPLES.map(({ ra }) => ra));
    },
  );

  it('are not the offsets of dithers', async () => {
    const lines = SAMPLES.slice(0, 40).flatMap(({ ra, dec }, i) => [
      `${stamp(i * 130)} frame: begin 100 s`,
      `${stamp(i * 130 + 100)} frame: end`,
      `${stamp(i * 130 + 102)} dither: begin ${ra} ${dec} px`,
      `${stamp(i * 130 + 105)} dither: end`,
    ]);
    const { yaml, at } = await samplesOf(lines);
    expect(at).toEqual([]);
    expect(yaml).toContain('event: dither-begin');
  });
});
