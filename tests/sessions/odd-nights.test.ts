import { describe, expect, it } from 'vitest';
import { coverageOf, warningsOf, type Night } from '../../src/model/index.js';
import { readNights, starterRig } from '../../src/pipeline.js';
import { frontView } from '../../src/report/html/view/front.js';
import { viewContext } from '../../src/report/html/view/context.js';
import type { Scenario } from '../support/generator/scenario.js';
import { CIERZO_HILL, HERON, WREN } from '../support/generator/scenarios.js';
import { shortNight } from '../support/generator/short-night.js';
import { writeFiles } from '../support/generator/samples.js';
import { writeSession, type SessionFiles } from '../support/generator/write-session.js';
import { TEST_NOW_MS } from '../support/sample-night.js';
import { cleanUp, tempFolder } from '../support/temp-folder.js';
import { withFastComputer } from '../support/wrong-clocks.js';

cleanUp();

/** One train, three hours from a time on, at a place. */
const scenario = (begin: string, place: Partial<Scenario['site']> = {}): Scenario =>
  shortNight({
    name: 'odd',
    begin,
    end: new Date(Date.parse(begin) + 3 * 3_600_000).toISOString(),
    site: { ...CIERZO_HILL, ...place },
    trains: [{ ...HERON, plan: [{ target: 'NGC 281', filter: 'Ha', seconds: 300, count: 40 }] }],
  });

async function nightsOf(files: SessionFiles): Promise<Night[]> {
  const folder = tempFolder();
  writeFiles(folder, files);
  return readNights(folder, { nowMs: TEST_NOW_MS, replay: null });
}

async function onlyNight(files: SessionFiles): Promise<Night> {
  const [night, ...others] = await nightsOf(files);
  if (!night || others.length > 0) throw new Error(`${others.length + (night ? 1 : 0)} nights were read`);
  return night;
}

/** Cards under another keyword, so that they say nothing: the first eight bytes differ alone. */
function without(files: SessionFiles, ...keywords: readonly string[]): SessionFiles {
  const hide = (text: string) =>
    keywords.reduce((all, k) => all.replace(`${k.padEnd(8)}=`, `X${k.slice(0, 7).padEnd(7)}=`), text);
  return new Map(
    [...files].map(([path, content]) => [
      path,
      path.endsWith('.fits') ? Buffer.from(hide((content as Buffer).toString('latin1')), 'latin1') : content,
    ]),
  );
}

/** A dark and a flat made of the first light, two days earlier. */
function calibrationLike(files: SessionFiles): SessionFiles {
  const [first] = [...files.keys()].filter((path) => path.endsWith('.fits'));
  const light = first === undefined ? undefined : files.get(first);
  return new Map(
    light === undefined
      ? []
      : ['DARK ', 'FLAT '].flatMap((kind, i) => {
          const path = `frames/heron/${kind.trim()}.fits`;
          const text = (light as Buffer).toString('latin1').replace("'LIGHT", `'${kind}`);
          const moved = withFastComputer(new Map([[path, Buffer.from(text, 'latin1')]]), 'heron', -172_800_000 + i);
          return [...moved];
        }),
  );
}

describe('a night anywhere, by headers alone', () => {
  it.each([
    ['179° east', '2026-03-10T09:00:00.000Z', { latitude: -30, longitude: 179 }, '2026-03-10'],
    ['181° east', '2026-03-10T09:00:00.000Z', { latitude: 30, longitude: 181 }, '2026-03-09'],
    ['30° south over New Year', '2025-12-31T20:30:00.000Z', { latitude: -30, longitude: 22 }, '2025-12-31'],
    ['65° north in June', '2026-06-20T20:30:00.000Z', { latitude: 65, longitude: 25 }, '2026-06-20'],
  ])('is one night, named by its evening, without a word of a wrong date: %s', async (_what, begin, place, date) => {
    const night = await onlyNight(writeSession(scenario(begin, place), { rig: false, logs: false }).files);
    expect(night.date).toBe(date);
    expect(night.accounts.lights.length).toBeGreaterThan(20);
    const codes = warningsOf(night).map((w) => w.code);
    expect(codes).not.toContain('lights-in-daylight');
    expect(codes).not.toContain('local-time-suspected');
    expect(codes).not.toContain('zone-contradicts-longitude');
  });

  it('is cut in its longest pause where no header names a place, and that is said', async () => {
    // An evening and a night at 170° west: noon UTC lies in the middle of it.
    const { files } = writeSession(scenario('2026-03-11T10:30:00.000Z'), { rig: false, logs: false });
    const night = await onlyNight(without(files, 'SITELAT', 'SITELONG'));
    expect(warningsOf(night).map((w) => w.code)).toContain('night-cut-by-pause');
  });
});

describe('the first screen', () => {
  const noticesOf = async (files: SessionFiles): Promise<string> =>
    frontView(viewContext(await onlyNight(files))).notices.join(' ');
  const evening = scenario('2026-10-14T20:00:00.000Z');

  it('says that a night without a place is cut in its longest pause', async () => {
    const { files } = writeSession(evening, { rig: false, logs: false });
    expect(await noticesOf(without(files, 'SITELAT', 'SITELONG'))).toMatch(
      /The site is not known.*nights are cut at \d\d:00 UTC, in the longest pause \(\d+\.\d h\)\./,
    );
  });

  it('says that a zone contradicts the longitude', async () => {
    const { files } = writeSession({ ...evening, site: { ...CIERZO_HILL, timezone: 'America/Los_Angeles' } });
    expect(await noticesOf(files)).toMatch(/time zone America\/Los_Angeles does not fit its longitude/);
  });

  it('says that a log of 1970 was left out', async () => {
    const { files } = writeSession(evening);
    const log = String(files.get('logs/heron.jsonl')).replace(/2026-10-1\dT/g, '1970-01-01T');
    expect(await noticesOf(new Map([...files, ['logs/heron.jsonl', log]]))).toMatch(
      /\d+ lines of logs\/heron\.jsonl were left out/,
    );
  });

  it('says what to write for a target without coordinates, and so does the starter rig', async () => {
    const { files } = writeSession(evening, { rig: false, logs: false });
    let n = 0;
    const named = new Map(
      [...without(files, 'OBJECT', 'RA', 'DEC')].map(([path, content]) => [
        path.endsWith('.fits') ? `NGC224/Ha_${n++}.fits` : path,
        content,
      ]),
    );
    expect(await noticesOf(named)).toContain('- { name: "M 31", ra: "hh:mm:ss", dec: "+dd:mm:ss" }');
    const folder = tempFolder();
    writeFiles(folder, named);
    const { yaml, summary } = await starterRig(folder, { nowMs: TEST_NOW_MS });
    expect(yaml).toContain('# targets:\n#   - { name: "M 31", ra: "hh:mm:ss", dec: "+dd:mm:ss" }');
    expect(summary.join(' ')).toContain('no coordinates of M 31');
  });

  it('says that an elevation is stated nowhere', async () => {
    const { files } = writeSession(evening, { rig: false, logs: false });
    const night = await onlyNight(without(files, 'SITEELEV'));
    expect(night.gathered.site?.elevationM).toBeUndefined();
    expect(frontView(viewContext(night)).place).toContain('elevation not stated, sea level assumed');
  });

  it('says none of this of a whole night', async () => {
    expect(await noticesOf(writeSession(evening).files)).toBe('');
  });
});

describe('one object under two designations', () => {
  it('is one target', async () => {
    const two = {
      ...scenario('2026-10-14T20:00:00.000Z'),
      trains: [HERON, WREN].map((t) => ({
        ...t,
        plan: [{ target: 'NGC 281', filter: 'Ha', seconds: 300, count: 40 }],
      })),
    };
    const { files } = writeSession(two, { rig: false, logs: false });
    const called = (path: string) => (path.startsWith('frames/heron/') ? "'M31    '" : "'NGC224 '");
    const renamed = [...files].map(([path, content]): [string, string | Buffer] => [
      path,
      Buffer.from((content as Buffer).toString('latin1').replace(/'NGC 281 *'/, called(path)), 'latin1'),
    ]);
    const night = await onlyNight(new Map(renamed));
    expect([...new Set(night.accounts.lights.map((f) => f.target))]).toEqual(['M 31']);
  });
});

describe('one colour camera without a rig file', () => {
  it('counts under colour, matches calibration without a filter, and reads as one train', async () => {
    const bayer = { ...scenario('2026-10-14T20:00:00.000Z'), cards: () => [['BAYERPAT', 'RGGB']] as const };
    const { files } = writeSession(bayer, { rig: false, logs: false });
    const night = await onlyNight(without(new Map([...files, ...calibrationLike(files)]), 'FILTER'));
    expect(night.accounts.totals.map((t) => t.filter)).toEqual(['colour']);
    expect(coverageOf(night)).toMatchObject([{ filter: 'colour', darks: 1, flats: 1 }]);
    const { trains, place, headline, figures, notices } = frontView(viewContext(night));
    const text = [
      trains,
      place,
      ...headline.map((p) => p.text),
      ...figures.map((f) => `${f.label} ${f.note}`),
      ...notices,
    ];
    expect(text.join(' ')).not.toMatch(/together|twin|trains|pilot/i);
    expect(headline.map((p) => p.text).join('')).toMatch(/ kept on NGC 281, heron\./);
  });
});

describe('guiding that was off for a moment', () => {
  const lost = (seconds: number): Scenario => ({
    ...scenario('2026-10-14T20:00:00.000Z'),
    trains: [HERON, WREN].map((t) => ({ ...t, plan: [{ target: 'NGC 281', filter: 'Ha', seconds: 300, count: 40 }] })),
    starLost: [{ at: '2026-10-14T20:20:00.000Z', seconds }],
  });
  const harmed = async (files: SessionFiles) =>
    (await onlyNight(files)).accounts.lights.flatMap((f) => f.causes.filter((c) => c.kind === 'guiding-off'));

  it('for 0.4 s makes no frame doubtful, for 3 s it does', async () => {
    expect(await harmed(writeSession(lost(0.4)).files)).toEqual([]);
    expect(await harmed(writeSession(lost(3)).files)).toMatchObject([{ verdict: 'doubtful' }, { verdict: 'doubtful' }]);
  });

  it('does so for 0.4 s too where the rig file sets guidingOffNotice to none', async () => {
    const { files } = writeSession(lost(0.4));
    const rig = `${String(files.get('rig.yaml'))}rules: { guidingOffNotice: 0 }\n`;
    expect(await harmed(new Map([...files, ['rig.yaml', rig]]))).toMatchObject([
      { overlapMs: 400 },
      { overlapMs: 400 },
    ]);
  });
});
