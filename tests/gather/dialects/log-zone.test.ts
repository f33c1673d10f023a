import { mkdtempSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DateTime } from 'luxon';
import { afterAll, describe, expect, it } from 'vitest';
import { draftFor } from '../../../src/log-doctor.js';
import { provedZone } from '../../../src/log-zone.js';
import type { LogEvent, Site } from '../../../src/model/index.js';

const HOUR_MS = 3_600_000;
/** Two hours ahead of UTC in summer. */
const ZONE = 'Europe/Madrid';
const SITE: Site = {
  name: 'Cierzo Hill',
  latitudeDeg: 40.42,
  longitudeDeg: -1.12,
  timezone: ZONE,
  minimumAltitudeDeg: 30,
  horizon: [],
};
/** 14 August 2026: the Sun sets at about 19:00 UTC, and is 12 degrees below the horizon at 20:00 (almanac, rounded). */
const DUSK = Date.UTC(2026, 7, 14, 20, 0);

/** Exposures from dusk on, every six minutes or so for five hours. */
const BEGINS = Array.from({ length: 50 }, (_, i) => DUSK + i * 360_000 + ((i * 7919) % 97) * 500);
/** The same as a log tells them that is read in a zone so many hours off. */
const readOff = (hours: number): LogEvent[] =>
  BEGINS.map((atMs, i) => ({ atMs: atMs + hours * HOUR_MS, event: 'exposure-begin', source: { file: 'a', line: i } }));
const FRAMES = BEGINS.map((beginMs, i) => ({ file: `a${i}.fits`, beginMs, seconds: 300 }));
const NOTHING = { frames: [], site: null, siteZone: ZONE, writtenMs: undefined };

describe('the zone of a log', () => {
  it.each([
    ['universal time read as the site’s', 'site', -2, 'utc'],
    ['the site’s time read as universal', 'utc', 2, 'site'],
    ['the time of another place read as the site’s', 'site', 3.5, '+05:30'],
    ['a wrong statement', '+05:00', -3, '+02:00'],
  ])('is proved by frames: %s', (_, assumed, hours, name) => {
    const zone = provedZone(readOff(hours), assumed, { ...NOTHING, frames: FRAMES });
    // What is the site's own clock is called so.
    expect(zone).toEqual({ name: name === '+02:00' ? 'site' : name, by: 'frames' });
  });

  it('stays where it agrees with the frames, or too few tell', () => {
    expect(provedZone(readOff(0), 'site', { ...NOTHING, frames: FRAMES })).toBeNull();
    expect(provedZone(readOff(-2), 'site', { ...NOTHING, frames: FRAMES.slice(0, 2) })).toBeNull();
    expect(provedZone([], 'site', { ...NOTHING, frames: FRAMES })).toBeNull();
  });

  it('is universal time where exposures would begin in daylight otherwise', () => {
    expect(provedZone(readOff(-2), 'site', { ...NOTHING, site: SITE })).toEqual({ name: 'utc', by: 'darkness' });
    expect(provedZone(readOff(0), 'site', { ...NOTHING, site: SITE })).toBeNull();
    // What the log says itself is not overruled by the Sun: a check says that exposures begin in daylight.
    expect(provedZone(readOff(-2), '+02:00', { ...NOTHING, site: SITE })).toBeNull();
  });

  it('is that in which the log ends when its file was written, unless darkness says otherwise', () => {
    const writtenMs = (BEGINS.at(-1) ?? NaN) + 300_000;
    expect(provedZone(readOff(-2), 'site', { ...NOTHING, writtenMs })).toEqual({ name: 'utc', by: 'file-time' });
    expect(provedZone(readOff(0), 'site', { ...NOTHING, writtenMs })).toBeNull();
    expect(provedZone(readOff(-2), 'site', { ...NOTHING, writtenMs: writtenMs + 86_400_000 })).toBeNull();
    // Two hours later these would end in daylight.
    const late = readOff(6.5);
    const ofLate = { ...NOTHING, site: SITE, writtenMs: writtenMs + 8.5 * HOUR_MS };
    expect(provedZone(late, 'site', ofLate)).toBeNull();
  });
});

/** A light of one pixel that states the site. */
function light(own: Readonly<Record<string, string>>): string {
  const cards = {
    SIMPLE: 'T',
    BITPIX: '16',
    NAXIS: '2',
    NAXIS1: '1',
    NAXIS2: '1',
    IMAGETYP: "'Light'",
    SITELAT: '40.42',
    SITELONG: '-1.12',
    ...own,
  };
  const head = [...Object.entries(cards).map(([key, value]) => `${key.padEnd(8)}= ${value}`), 'END'];
  return (
    head
      .map((card) => card.padEnd(80))
      .join('')
      .padEnd(2880) + '\0'.repeat(2880)
  );
}

describe('the draft of a log that prints no zone', () => {
  const folder = mkdtempSync(join(tmpdir(), 'nightledger-zone-'));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  const log = join(folder, 'night.log');
  const draft = async (zone: string, writtenMs: number): Promise<string> => {
    const stamp = (ms: number): string => DateTime.fromMillis(ms, { zone }).toFormat('yyyy-MM-dd HH:mm:ss');
    const lines = BEGINS.flatMap((ms) => [
      `${stamp(ms)} exposure begins, 300 s, Ha`,
      `${stamp(ms + 300_000)} exposure ends`,
    ]);
    writeFileSync(log, `${lines.join('\n')}\n`);
    utimesSync(log, writtenMs / 1000, writtenMs / 1000);
    return (await draftFor(log, { zone: ZONE, nowMs: DUSK })).yaml ?? '';
  };

  it('is in the zone in which the file was written at its end, and says so', async () => {
    const endMs = (BEGINS.at(-1) ?? NaN) + 310_000;
    expect(await draft('utc', endMs)).toMatch(/zone: 'utc' +# LOOK AT THIS: .*the file was last written/);
    expect(await draft(ZONE, endMs)).toMatch(/zone: site +# the log prints no zone/);
  });

  it('is in universal time where the site above it would have daylight otherwise', async () => {
    const rig = join(folder, 'rig.yaml');
    writeFileSync(
      rig,
      `site: { name: Cierzo Hill, latitude: 40.42, longitude: -1.12, timezone: ${ZONE} }\ntrains: [ { id: heron } ]\n`,
    );
    expect(await draft('utc', DUSK + 9e9)).toMatch(/zone: 'utc' +# LOOK AT THIS: .*daylight/);
    rmSync(rig);
    expect(await draft('utc', DUSK + 9e9)).toMatch(/zone: site/);
  });

  it('is in universal time where headers place the camera so that it would have daylight otherwise', async () => {
    await draft('utc', DUSK + 9e9);
    const session = mkdtempSync(join(folder, 'session-'));
    // A light of the night before, which agrees with no exposure of the log.
    writeFileSync(join(session, 'a.fits'), light({ 'DATE-OBS': "'2026-08-13T22:00:00'", EXPTIME: '60.0' }));
    const beside = await draftFor(log, { zone: ZONE, session, nowMs: DUSK });
    expect(beside.yaml).toMatch(/zone: 'utc' +# LOOK AT THIS: .*daylight/);
    rmSync(session, { recursive: true });
  });

  it('is in the zone of the place that headers state, in the night in which clocks change too', async () => {
    const session = mkdtempSync(join(folder, 'session-'));
    // Clocks go from 3:00 back to 2:00 in the night to 25 October 2026 (EU directive 2000/84).
    const begins = Array.from(
      { length: 24 },
      (_, i) => Date.UTC(2026, 9, 24, 21) + i * 904_000 + ((i * 37) % 9) * 1000,
    );
    const local = (ms: number): string => DateTime.fromMillis(ms, { zone: ZONE }).toFormat('yyyy-MM-dd HH:mm:ss');
    begins.forEach((ms, i) => {
      const date = `'${new Date(ms).toISOString().slice(0, 19)}'`;
      writeFileSync(join(session, `a${i}.fits`), light({ 'DATE-OBS': date, EXPTIME: '300.0' }));
    });
    const lines = begins.flatMap((ms) => [`${local(ms)} exposure begins`, `${local(ms + 300_000)} exposure ends`]);
    writeFileSync(join(session, 'night.log'), `${lines.join('\n')}\n`);
    const { yaml, summary } = await draftFor(join(session, 'night.log'), { session, nowMs: DUSK + 9e9 });
    expect(yaml).toMatch(/zone: site/);
    expect(summary.join('\n')).toContain('24 of 24 exposures of the log have a frame of their own');
    rmSync(session, { recursive: true });
  });

  it('says that a rig file above it cannot be read', async () => {
    const rig = join(folder, 'rig.yaml');
    writeFileSync(rig, 'trains: [ { id: heron\n');
    const { summary } = await draftFor(log, { zone: ZONE, nowMs: DUSK });
    expect(summary[0]).toMatch(/^look at: .*rig\.yaml cannot be read, so neither its site and zone nor its trains/);
    rmSync(rig);
  });
});
