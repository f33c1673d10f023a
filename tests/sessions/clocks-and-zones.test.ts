import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { lossesOf } from '../../src/report/figures/losses.js';
import { readNights } from '../../src/pipeline.js';
import { toRecord } from '../../src/record/index.js';
import { writeFits } from '../support/fits-writer.js';
import { shortNight } from '../support/generator/short-night.js';
import { writeFiles } from '../support/generator/samples.js';
import { CIERZO_HILL, HERON, TARGETS, WREN } from '../support/generator/scenarios.js';
import { writeSession, type SessionFiles } from '../support/generator/write-session.js';
import type { Scenario } from '../support/generator/scenario.js';
import { TEST_NOW_MS } from '../support/sample-night.js';
import { withFastComputer } from '../support/wrong-clocks.js';
import { expectTruth } from './truth-check.js';
import { warningsOf } from '../../src/model/index.js';

let folder: string;
beforeEach(() => (folder = mkdtempSync(join(tmpdir(), 'nightledger-clocks-'))));
afterEach(() => rmSync(folder, { recursive: true, force: true }));

/** High in spring; J2000, from memory. */
const M101 = { name: 'M 101', ra: '14:03:13', dec: '+54:20:57', raDeg: 210.8, decDeg: 54.35 };

const scenario = (
  begin: string,
  end: string,
  site: Scenario['site'] = CIERZO_HILL,
  target = TARGETS.ngc281 as typeof M101,
): Scenario =>
  shortNight({
    name: 'clocks',
    seed: 77,
    begin,
    end,
    site,
    trains: [HERON, WREN].map((t) => ({
      ...t,
      plan: [{ target: target.name, filter: 'Ha', seconds: 240, count: 200 }],
    })),
    targets: [target],
  });

async function nightOf(files: SessionFiles) {
  writeFiles(folder, files);
  const nights = await readNights(folder, { nowMs: TEST_NOW_MS, replay: null });
  expect(nights).toHaveLength(1);
  return nights[0]!;
}

describe('logs in local time', () => {
  // The European Union changes at 01:00 UTC (Directive 2000/84/EC): back on 2026-10-25, forward on 2027-03-28.
  it.each([
    ['when summer time ends', scenario('2026-10-24T23:10:00.000Z', '2026-10-25T02:30:00.000Z')],
    ['when summer time begins', scenario('2026-03-28T23:10:00.000Z', '2026-03-29T02:30:00.000Z', CIERZO_HILL, M101)],
  ])('are read rightly on the night %s', async (_what, night) => {
    const written = writeSession(night, { dialects: { companionAheadMs: 0 } });
    const record = toRecord(await nightOf(written.files), 'test');
    expectTruth(record, {
      ...written.truth,
      night: new Date(Date.parse(night.begin) - 12 * 3_600_000).toISOString().slice(0, 10),
    });
  });

  it('are corrected, and reported, when the pilot’s dialect names the wrong zone and everything else contradicts it', async () => {
    const written = writeSession(scenario('2026-10-14T20:00:00.000Z', '2026-10-14T23:00:00.000Z'), {
      dialects: { companionAheadMs: 0 },
    });
    const wrong = String(written.files.get('dialects/hut-diary.yaml')).replace('zone: site', 'zone: UTC');
    const night = await nightOf(new Map([...written.files, ['dialects/hut-diary.yaml', wrong]]));
    // The night was simulated without guiding samples: their log is a head alone, which is reported as well.
    const notices = warningsOf(night).filter(({ code }) => code !== 'log-says-nothing');
    expect(notices.map((w) => w.message)).toEqual([
      expect.stringMatching(
        /^The log of heron is 2 h 00 min 00 s ahead of the headers of heron, the log of wren, the headers of wren .*its times were shifted/,
      ),
    ]);
    expectTruth(toRecord(night, 'test'), written.truth);
  });
});

/** The same session with the trains' headers in the site's local time, as some programs write them by mistake. */
function inLocalTime(files: SessionFiles, offsetHours: number): SessionFiles {
  return new Map(
    [...files].map(([path, content]) => {
      if (!path.endsWith('.fits')) return [path, content];
      const text = (content as Buffer).toString('latin1');
      const utc = /DATE-OBS= '([^']+)'/.exec(text)![1]!.trim();
      const seconds = Number(/EXPTIME *= *([\d.]+)/.exec(text)![1]);
      const local = new Date(Date.parse(`${utc}Z`) + offsetHours * 3_600_000).toISOString().replace('Z', '');
      const filter = /FILTER *= '([^' ]+)/.exec(text)![1]!;
      const telescope = /TELESCOP= '([^' ]+)/.exec(text)![1]!;
      return [
        path,
        writeFits({
          width: 2,
          height: 2,
          bitpix: 16,
          cards: [
            ['IMAGETYP', 'LIGHT'],
            ['DATE-OBS', local],
            ['EXPTIME', seconds],
            ['OBJECT', 'NGC 281'],
            ['FILTER', filter],
            ['TELESCOP', telescope],
          ],
        }),
      ];
    }),
  );
}

describe('headers in local time by mistake', () => {
  const night = scenario('2026-10-14T20:00:00.000Z', '2026-10-14T23:00:00.000Z');

  it('are reported where a log contradicts them, and the log’s clock counts', async () => {
    const written = writeSession(night);
    const found = await nightOf(inLocalTime(written.files, 2));
    const warnings = warningsOf(found).filter((w) => w.code === 'clock-offset');
    expect(warnings.map((w) => w.message).join(' ')).toMatch(
      /headers of heron are 2 h 00 min 00 s ahead.*headerTimeZone: for heron/,
    );
    expectTruth(toRecord(found, 'test'), written.truth);
  });

  it('are read rightly where the rig file says so', async () => {
    const written = writeSession(night, { logs: false });
    const rig = String(written.files.get('rig.yaml')).replaceAll(
      '    camera:',
      '    headerTimeZone: Europe/Madrid\n    camera:',
    );
    const found = await nightOf(new Map([...inLocalTime(written.files, 2), ['rig.yaml', rig]]));
    expect(found.accounts.lights.map((f) => f.exposure.startMs)).toEqual(
      written.simulation.frames.map((f) => f.beginMs).sort((a, b) => a - b),
    );
    expect(warningsOf(found)).toEqual([]);
  });

  it('are suspected without any log when they put the lights into daylight', async () => {
    // Local time west of Greenwich is behind: an evening's frames would stand in the afternoon.
    const west = { ...CIERZO_HILL, longitude: -70, timezone: 'America/Bogota' };
    const written = writeSession(scenario('2026-10-15T00:30:00.000Z', '2026-10-15T02:30:00.000Z', west), {
      logs: false,
    });
    const found = await nightOf(inLocalTime(written.files, -5));
    expect(warningsOf(found).map((w) => w.code)).toContain('local-time-suspected');
    // What follows from when it imaged is not known, and neither promised nor counted as lost.
    const lateness = ['unused-darkness', 'companion-start', 'low-target', 'moon-near'];
    expect(found.findings.ranked.filter(({ id }) => lateness.includes(id))).toEqual([]);
    expect(found.findings.notAssessed).toContainEqual(
      expect.objectContaining({
        id: 'unused-darkness',
        missing: expect.stringContaining('lights are dated in daylight'),
      }),
    );
    expect(lossesOf(found).map(({ label }) => label)).not.toContain('unused darkness');
  });
});

describe('a computer whose clock is wrong', () => {
  const night = { ...scenario('2026-10-14T20:00:00.000Z', '2026-10-15T00:00:00.000Z'), guidingEverySeconds: 4 };

  it('is found out where it rides along, though its log holds nothing of the mount', async () => {
    const written = writeSession(night);
    const found = await nightOf(withFastComputer(written.files, 'wren', 37_400));
    expect(found.timeline.clocks).toMatchObject([
      { train: 'heron', source: 'headers', aheadMs: 0, isKnown: true },
      { train: 'wren', source: 'log', aheadMs: 37_400, corrected: true, isKnown: true, isAbsolute: false },
      { train: 'wren', source: 'headers', aheadMs: 37_400, corrected: true },
    ]);
    const record = toRecord(found, 'test');
    expectTruth(record, written.truth);
    expect(record.clocks).toContainEqual(
      expect.objectContaining({ train: 'wren', source: 'log', aheadSeconds: 37.4, corrected: true }),
    );
  });

  it('is put right by hand, the pilot’s with the guiding that it wrote', async () => {
    const written = writeSession(night);
    const fast = withFastComputer(written.files, 'heron', -3600_000);
    const rig = String(fast.get('rig.yaml')).replace('role: pilot', 'role: pilot\n    clockOffset: -3600');
    const found = await nightOf(new Map([...fast, ['rig.yaml', rig]]));
    expectTruth(toRecord(found, 'test'), written.truth);
    expect(found.gathered.guiding?.atMs[0]).toBe(written.simulation.samples[0]?.atMs);
    expect(found.timeline.clocks.every((c) => c.isAbsolute)).toBe(true);
  });
});
