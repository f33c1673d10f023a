import { describe, expect, it } from 'vitest';
import type { CardInput } from '../../support/fits-writer.js';
import { codes, FrameFolder, frame, lightWithout } from './header-files.js';

const folder = new FrameFolder();
const START = '2026-10-14T19:42:10.250Z';

/** Reads a light whose dates are these cards alone. */
async function dated(...cards: CardInput[]) {
  const { frame: read, warnings } = await folder.readOne(frame([...lightWithout('DATE-OBS', 'EXPTIME'), ...cards]));
  const iso = (ms: number | undefined) => (ms === undefined ? undefined : new Date(ms).toISOString());
  return {
    start: iso(read?.exposure?.startMs),
    end: iso(read?.exposure?.endMs),
    seconds: read?.exposureSeconds,
    codes: codes(warnings),
    warnings,
  };
}

const EXPTIME: CardInput = ['EXPTIME', 300];

describe('start of the exposure', () => {
  it('is DATE-OBS', async () => {
    expect(await dated(['DATE-OBS', '2026-10-14T19:42:10.250'], EXPTIME)).toMatchObject({
      start: START,
      end: '2026-10-14T19:47:10.250Z',
      seconds: 300,
      codes: [],
    });
  });

  it('is DATE-BEG before DATE-OBS', async () => {
    expect(
      await dated(['DATE-OBS', '2026-10-14T19:44:40.250'], ['DATE-BEG', '2026-10-14T19:42:10.250'], EXPTIME),
    ).toMatchObject({ start: START, codes: [] });
  });

  it.each([
    ['without fraction', '2026-10-14T19:42:10', '2026-10-14T19:42:10.000Z'],
    ['with a fraction of seven digits, to the nearest millisecond', '2026-10-14T19:42:10.2496789', START],
    ['with a fraction that rounds up to the next second', '2026-10-14T19:42:09.9999', '2026-10-14T19:42:10.000Z'],
    ['with a trailing Z', '2026-10-14T19:42:10.250Z', START],
    ['with a space for the T', '2026-10-14 19:42:10.250', START],
    ['with a lower-case t', '2026-10-14t19:42:10.250', START],
    ['with a decimal comma', '2026-10-14T19:42:10,250', START],
    ['without leading zeros', '2026-1-4T9:2:1', '2026-01-04T09:02:01.000Z'],
    ['without seconds', '2026-10-14T19:42', '2026-10-14T19:42:00.000Z'],
    ['in a leap second', '2016-12-31T23:59:60.5', '2017-01-01T00:00:00.500Z'],
    ['on a leap day', '2028-02-29T00:00:00', '2028-02-29T00:00:00.000Z'],
  ])('is read %s', async (_, text, start) => {
    const { start: read, codes: reported } = await dated(['DATE-OBS', text], EXPTIME);
    expect(read).toBe(start);
    expect(reported.filter((code) => code !== 'date-in-future')).toEqual([]);
  });

  it('is read without quotes', async () => {
    expect(await dated('DATE-OBS= 2026-10-14T19:42:10.250', EXPTIME)).toMatchObject({ start: START, codes: [] });
  });

  it.each(['1969-01-01T22:00:00', '1989-12-31T23:59:59', '2100-01-01T00:00:00'])(
    'is not known of %s: no record holds a night of that year',
    async (text) => {
      const read = await dated(['DATE-OBS', text], EXPTIME);
      expect(read.start).toBeUndefined();
      expect(read.warnings.map(({ message }) => message).join()).toContain('not a date in the years 1990 to 2099');
    },
  );

  it('joins DATE-OBS without a time to TIME-OBS', async () => {
    expect(await dated(['DATE-OBS', '2026-10-14'], ['TIME-OBS', '19:42:10.250'], EXPTIME)).toMatchObject({
      start: START,
      codes: [],
    });
    expect(await dated(['DATE-OBS', '2026-10-14'], ['UT', '19:42:10.250'], EXPTIME)).toMatchObject({
      start: START,
      codes: [],
    });
  });

  it('leaves TIME-OBS aside where DATE-OBS has a time', async () => {
    expect(await dated(['DATE-OBS', '2026-10-14T19:42:10.250'], ['TIME-OBS', '03:00:00'], EXPTIME)).toMatchObject({
      start: START,
      codes: [],
    });
  });

  it('reads the old form dd/mm/yy with TIME-OBS', async () => {
    expect(await dated(['DATE-OBS', '14/10/99'], ['TIME-OBS', '19:42:10.250'], EXPTIME)).toMatchObject({
      start: '1999-10-14T19:42:10.250Z',
      codes: [],
    });
    expect(await dated(['DATE-OBS', '14/10/2026'], ['TIME-OBS', '19:42:10.250'], EXPTIME)).toMatchObject({
      start: START,
      codes: [],
    });
  });

  it('reads a small two-digit year as one of this century and tells so', async () => {
    expect(await dated(['DATE-OBS', '14/10/26'], ['TIME-OBS', '19:42:10.250'], EXPTIME)).toMatchObject({
      start: START,
      codes: ['two-digit-year'],
    });
  });

  it('applies a time zone and tells so', async () => {
    expect(await dated(['DATE-OBS', '2026-10-14T21:42:10.250+02:00'], EXPTIME)).toMatchObject({
      start: START,
      codes: ['time-zone'],
    });
    expect(await dated(['DATE-OBS', '2026-10-14T14:12:10.250-0530'], EXPTIME)).toMatchObject({
      start: START,
      codes: ['time-zone'],
    });
  });

  it('follows from DATE-AVG or DATE-END and the exposure time, and that is reported', async () => {
    expect(await dated(['DATE-AVG', '2026-10-14T19:44:40.250'], EXPTIME)).toMatchObject({
      start: START,
      codes: ['derived-start'],
    });
    expect(await dated(['DATE-END', '2026-10-14T19:47:10.250'], EXPTIME)).toMatchObject({
      start: START,
      codes: ['derived-start'],
    });
  });

  it.each([
    ["'2026-10-14T19:47:10.250' / end of exposure, UTC", 'derived-start'],
    ["'2026-10-14T19:47:10.250' / Ende der Belichtung", 'derived-start'],
    ["'2026-10-14T19:47:10.250' / [UTC] shutter closed", 'derived-start'],
    ["'2026-10-14T19:44:40.250' / UTC of mid-exposure", 'derived-start'],
    ["'2026-10-14T19:42:10.250' / start of exposure; DATE-END is its end", undefined],
    ["'2026-10-14T19:42:10.250' / UTC of the legendary observation", undefined],
    ["'2026-10-14T19:42:10.250'", undefined],
  ])('is what the comment of DATE-OBS says: %s', async (card, reported) => {
    const read = await dated(`DATE-OBS= ${card}`, EXPTIME);
    expect(read).toMatchObject({ start: START, codes: reported === undefined ? [] : [reported] });
  });

  it('is read by the comment of each header, though one is like another', async () => {
    const at = async (card: string) => (await dated(`DATE-OBS= ${card}`, EXPTIME)).start;
    expect(await at("'2026-10-14T19:47:10.250' / exposure end  ")).toBe(START);
    expect(await at("'2026-10-14T19:52:10.250' / exposure end  ")).toBe('2026-10-14T19:47:10.250Z');
    expect(await at("'2026-10-14T19:52:10.500' / exposure start")).toBe('2026-10-14T19:52:10.500Z');
    expect(await at("'2026-10-14T19:52:10.500'")).toBe('2026-10-14T19:52:10.500Z');
    // DATE-BEG is the start whatever is said of it.
    expect((await dated("DATE-BEG= '2026-10-14T19:42:10.250' / not the end", EXPTIME)).start).toBe(START);
  });

  it('is not made up from DATE-END alone', async () => {
    const read = await dated(['DATE-END', '2026-10-14T19:47:10.250']);
    expect(read.start).toBeUndefined();
    expect(read.codes).toEqual(['missing-date']);
  });

  it('comes from day numbers as the last resort', async () => {
    const mjd = 61_327 + ((19 * 60 + 42) * 60 + 10.25) / 86_400;
    expect(await dated(['MJD-OBS', mjd], EXPTIME)).toMatchObject({ start: START, codes: [] });
    expect(await dated(['MJD-BEG', mjd], EXPTIME)).toMatchObject({ start: START, codes: [] });
    expect(await dated(['MJD-AVG', mjd + 150 / 86_400], EXPTIME)).toMatchObject({
      start: START,
      codes: ['derived-start'],
    });
    expect(await dated(['JD', mjd + 2_400_000.5], EXPTIME)).toMatchObject({ start: START, codes: [] });
    expect(await dated(['DATE-OBS', '2026-10-14T19:42:10.250'], ['MJD-OBS', 61_000], EXPTIME)).toMatchObject({
      start: START,
      codes: [],
    });
  });
});

describe('dates that cannot be used', () => {
  it.each([
    'soon',
    '2026-13-01T00:00:00',
    '2026-02-29T00:00:00',
    '2026-10-14T25:00:00',
    '2026-10-14T19:61:00',
    '2026-10-14T19:42:61',
    '0000-00-00T00:00:00',
    '0001-01-01T00:00:00',
    '12345',
  ])('tells %s and leaves it out', async (text) => {
    const read = await dated(['DATE-OBS', text], EXPTIME);
    expect(read.start).toBeUndefined();
    expect(read.codes).toEqual(['unreadable-date', 'missing-date']);
    expect(read.warnings[0]).toMatchObject({ source: { file: 'a.fits', card: 'DATE-OBS' } });
    expect(read.warnings[0]?.message).toContain(`DATE-OBS is '${text}'`);
  });

  it('passes over a bad one to a good one', async () => {
    expect(await dated(['DATE-BEG', 'soon'], ['DATE-OBS', '2026-10-14T19:42:10.250'], EXPTIME)).toMatchObject({
      start: START,
      codes: ['unreadable-date'],
    });
  });

  it('tells a date without any time of day', async () => {
    expect(await dated(['DATE-OBS', '2026-10-14'], EXPTIME)).toMatchObject({
      start: undefined,
      codes: ['date-without-time', 'missing-date'],
    });
    expect(await dated(['DATE-OBS', '2026-10-14'], ['TIME-OBS', 'evening'], EXPTIME)).toMatchObject({
      start: undefined,
      codes: ['date-without-time', 'missing-date'],
    });
  });

  it('tells a header without any date', async () => {
    expect(await dated(EXPTIME)).toMatchObject({ start: undefined, seconds: 300, codes: ['missing-date'] });
  });

  it('tells a date in the future, by the clock it is given', async () => {
    const bytes = frame([...lightWithout('DATE-OBS'), ['DATE-OBS', '2026-10-14T19:42:10.250']]);
    const at = Date.parse(START);
    expect(codes((await folder.readOne(bytes, { nowMs: at })).warnings)).toEqual([]);
    const { warnings, frame: read } = await folder.readOne(bytes, { nowMs: at - 1 });
    expect(codes(warnings)).toEqual(['date-in-future']);
    expect(read?.exposure?.startMs).toBe(at);
  });
});

describe('exposure time', () => {
  it("is EXPTIME, EXPOSURE, or the standard's XPOSURE in TIMEUNIT", async () => {
    const date: CardInput = ['DATE-OBS', '2026-10-14T19:42:10.250'];
    expect((await dated(date, ['EXPOSURE', 120.5])).seconds).toBe(120.5);
    expect((await dated(date, ['XPOSURE', 120.5])).seconds).toBe(120.5);
    expect((await dated(date, ['XPOSURE', 2], ['TIMEUNIT', 'min'])).seconds).toBe(120);
    expect((await dated(date, ['EXPTIME', 300], ['XPOSURE', 2], ['TIMEUNIT', 'd'])).seconds).toBe(300);
  });

  it('may be written as text, and with a decimal comma', async () => {
    expect((await dated(['DATE-OBS', '2026-10-14T19:42:10'], ['EXPTIME', '300.0'])).seconds).toBe(300);
    expect((await dated(['DATE-OBS', '2026-10-14T19:42:10'], ['EXPTIME', '0,5'])).seconds).toBe(0.5);
    expect((await dated(['DATE-OBS', '2026-10-14T19:42:10'], ['EXPTIME', '3.0D2'])).seconds).toBe(300);
  });

  it.each([
    ['NaN', 'unreadable-number'],
    ['-nan(ind)', 'unreadable-number'],
    ['five minutes', 'unreadable-number'],
    [-300, 'absurd-value'],
    [60_000, 'absurd-value'],
    [1e300, 'absurd-value'],
  ])('of %s is reported, and the fact is absent', async (value, code) => {
    const read = await dated(['DATE-OBS', '2026-10-14T19:42:10.250'], ['EXPTIME', value]);
    expect(read.seconds).toBeUndefined();
    expect(read).toMatchObject({ start: START, end: START, codes: [code, 'missing-exposure-time'] });
    expect(read.warnings[0]?.source).toEqual({ file: 'a.fits', card: 'EXPTIME' });
  });

  it('of NaN gives way to another keyword', async () => {
    expect(await dated(['DATE-OBS', '2026-10-14T19:42:10.250'], ['EXPTIME', 'NaN'], ['EXPOSURE', 300])).toMatchObject({
      seconds: 300,
      codes: ['unreadable-number'],
    });
  });

  it('when missing is what lies between start and end, and that is reported', async () => {
    // FITS Standard 4.0, section 9.5: DATE-BEG and DATE-END are the start and the end of the acquisition.
    const between = (begin: string, end: string) => dated(['DATE-BEG', begin], ['DATE-END', end]);
    expect(await between('2026-10-14T19:42:10.250', '2026-10-14T19:47:10.250')).toMatchObject({
      start: START,
      end: '2026-10-14T19:47:10.250Z',
      seconds: 300,
      codes: ['derived-length'],
    });
    // Frames of one length are of one length, though their ends were written down some milliseconds later.
    expect((await between('2026-10-14T19:42:10.250', '2026-10-14T19:47:10.391')).seconds).toBe(300);
    expect((await between('2026-10-14T19:42:10.250', '2026-10-14T19:42:12.391')).seconds).toBe(2.141);
    expect(await between('2026-10-14T19:42:10.250', '2026-10-15T19:42:10.250')).toMatchObject({
      seconds: undefined,
      codes: ['missing-exposure-time'],
    });
  });

  it('is in the unit that text or comment name', async () => {
    const seconds = async (card: CardInput) => (await dated(['DATE-OBS', '2026-10-14T19:42:10.250'], card)).seconds;
    // Section 4.3.2: the unit stands in brackets in the comment.
    expect(await seconds('EXPOSURE=               300000 / [ms] with the shutter open')).toBe(300);
    expect(await seconds('EXPOSURE=               300000 / Belichtungszeit [ms]')).toBe(300);
    expect(await seconds('EXPOSURE=               300000 / exposure time in milliseconds')).toBe(300);
    expect(await seconds('EXPTIME =                    5 / [min]')).toBe(5 * 60);
    expect(await seconds('EXPTIME =                300.0 / [s] exposure time')).toBe(300);
    expect(await seconds('EXPTIME =                300.0 / how long the shutter was open, see also [1]')).toBe(300);
    expect(await seconds("EXPTIME = '300 s'")).toBe(300);
    expect(await seconds("EXPOSURE= '300000 ms'")).toBe(300);
    expect(await seconds("EXPOSURE= '300 parsecs'")).toBeUndefined();
  });

  it('is in its own unit where another card has the same comment', async () => {
    const exposure = 'EXPTIME =                300.0 / as set [m]';
    const focalLength = 'FOCALLEN=                 0.48 / as set [m]';
    // Metres are none of time's units.
    const { frame: read } = await folder.readOne(frame([...lightWithout('EXPTIME'), exposure, focalLength]));
    expect([read?.exposureSeconds, read?.focalLengthMm]).toEqual([300, 480]);
  });

  it('of a fraction of a millisecond is rounded in the span alone', async () => {
    const read = await dated(['DATE-OBS', '2026-10-14T19:42:10.250'], ['EXPTIME', 0.0126]);
    expect(read.seconds).toBe(0.0126);
    expect(read.end).toBe('2026-10-14T19:42:10.263Z');
  });
});

describe('time scales', () => {
  it.each([
    ['UTC', '2026-10-14T19:42:10.250'],
    ['utc', '2026-10-14T19:42:10.250'],
    ['UT1', '2026-10-14T19:42:10.250'],
    ['GMT', '2026-10-14T19:42:10.250'],
    ['UTC(NIST)', '2026-10-14T19:42:10.250'],
    ['TAI', '2026-10-14T19:42:47.250'],
    ['GPS', '2026-10-14T19:42:28.250'],
    ['TT', '2026-10-14T19:43:19.434'],
    ['TT(TAI)', '2026-10-14T19:43:19.434'],
    ['TDB', '2026-10-14T19:43:19.434'],
  ])('%s is brought to UTC', async (scale, text) => {
    expect(await dated(['DATE-OBS', text], ['TIMESYS', scale], EXPTIME)).toMatchObject({ start: START, codes: [] });
  });

  it('is brought to UTC for day numbers and ends too', async () => {
    expect(await dated(['DATE-END', '2026-10-14T19:47:47.250'], ['TIMESYS', 'TAI'], EXPTIME)).toMatchObject({
      start: START,
    });
    expect(
      await dated(['DATE-OBS', '2026-10-14T19:42:47.250'], ['DATE-END', '2026-10-14T19:47:47.250'], ['TIMESYS', 'TAI']),
    ).toMatchObject({
      start: START,
      end: '2026-10-14T19:47:10.250Z',
    });
  });

  it('that is not known is reported, and taken as UTC', async () => {
    for (const scale of ['LOCAL', 'TCB', 'CEST']) {
      expect(await dated(['DATE-OBS', '2026-10-14T19:42:10.250'], ['TIMESYS', scale], EXPTIME)).toMatchObject({
        start: START,
        codes: ['unknown-time-scale'],
      });
    }
  });
});
