/**
 * What is shared cannot tell a site that it does not depend on: the same night, made at places more than 100 km apart,
 * gives the same files, letter by letter, whatever one may try to work out from them. Only findings of the sky may come and
 * go, and their cost moves by half hours.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { nightOfRecord } from '../../src/again.js';
import { SKY_FINDINGS } from '../../src/findings/index.js';
import type { Night } from '../../src/model/index.js';
import { toRecord } from '../../src/record/index.js';
import { FORMATS, keepLists, nightPages, PRINT_EDITIONS } from '../../src/report/index.js';
import { shareNight } from '../../src/share.js';
import { digested, withoutDrawing } from '../support/drawn-once.js';
import { inFull } from '../support/runs.js';
import { sampleFolder, sampleNight } from '../support/sample-night.js';
import { distanceKm } from './invert-site.js';

const HOME = { latitudeDeg: 40.42, longitudeDeg: -1.12 };
const HALF_HOUR_MS = 30 * 60_000;
const CONTEXT = { nowMs: Date.parse('2026-10-20T08:00:00Z'), version: '0.0.0', share: true };
type Away = readonly [string, typeof HOME];
/** More than 100 km off in each direction, within the same square of ten degrees. */
const NORTH: Away = ['north', { latitudeDeg: 41.42, longitudeDeg: -1.12 }];
const WEST: Away = ['west', { latitudeDeg: 40.42, longitudeDeg: -2.52 }];
/** `npm test` asks one night, of two cameras with logs of their own, for what tells of latitude and of longitude. */
const CASES: readonly (readonly [string, readonly Away[]])[] = inFull(
  [
    ['twin-night', [NORTH, WEST]],
    ['mixed-dialects', [NORTH, WEST]],
  ],
  [['mixed-dialects', [NORTH, WEST]]],
);

const records = new Map<string, Promise<string>>();

/** The sample's record, with its parts. */
function recordOf(name: string): Promise<string> {
  const made = records.get(name) ?? sampleNight(name).then((night) => JSON.stringify(toRecord(night, '0', true)));
  records.set(name, made);
  return made;
}

const nights = new Map<string, Promise<Night>>();

/** The sample night as it would have been recorded with the same times elsewhere; made once. */
function nightAt(name: string, place: typeof HOME): Promise<Night> {
  const key = JSON.stringify([name, place]);
  const made = nights.get(key) ?? recordedAt(name, place);
  nights.set(key, made);
  return made;
}

async function recordedAt(name: string, { latitudeDeg, longitudeDeg }: typeof HOME): Promise<Night> {
  const rig = readFileSync(join(sampleFolder(name), 'rig.yaml'), 'utf8')
    .replace(/latitude: [-\d.]+/, `latitude: ${latitudeDeg}`)
    .replace(/longitude: [-\d.]+/, `longitude: ${longitudeDeg}`);
  return (await nightOfRecord(await recordOf(name), { name: 'rig.yaml', text: rig })).night;
}

/** A shared night without the findings that the sky decides, after a look at what they say. */
function withoutSky(shared: Night): Night {
  const isOfSky = ({ id }: { readonly id: string }): boolean => SKY_FINDINGS.has(id);
  for (const finding of shared.findings.ranked.filter(isOfSky)) {
    expect(finding.costMs % HALF_HOUR_MS).toBe(0);
    expect(finding.evidence).toEqual(['the details are left out of the shared edition']);
    expect(finding.caution).toBeUndefined();
  }
  const { ranked, notAssessed } = shared.findings;
  return {
    ...shared,
    findings: {
      ranked: ranked.filter((finding) => !isOfSky(finding)),
      notAssessed: notAssessed.filter((finding) => !isOfSky(finding)),
    },
  };
}

/** Every file of a shared report, and the pages that its PDFs are printed from. */
async function filesOf(night: Night): Promise<Map<string, string>> {
  const shared = withoutSky(shareNight(night));
  const files = new Map<string, string>();
  // Digests of the charts are the same where the charts are.
  const pages = await withoutDrawing(() => nightPages(shared, CONTEXT), digested);
  files.set('report.html', pages.page);
  for (const edition of PRINT_EDITIONS)
    files.set(`${edition}.pdf`, pages.print(edition).html({ level: 0, pageOf: null }));
  files.set('night.json', JSON.stringify(toRecord(shared, '0', false), null, 1));
  for (const format of FORMATS) {
    const content = await format.render(shared, CONTEXT);
    files.set(format.id, typeof content === 'string' ? content : Buffer.from(content).toString('base64'));
  }
  for (const { path, text } of keepLists(shared).lists) files.set(path, text);
  return files;
}

/** Where two texts first differ, in both; `null` for the same text. */
function difference(a: string, b: string): string | null {
  if (a === b) return null;
  let at = 0;
  while (at < a.length && a[at] === b[at]) at++;
  return [a, b].map((text) => text.slice(Math.max(0, at - 80), at + 80)).join(' / ');
}

describe.each(CASES)('the shared files of %s', (name, away) => {
  let home: Map<string, string>;
  beforeAll(async () => {
    home = await filesOf(await nightAt(name, HOME));
  });

  it.each(away)('are the same for a site more than 100 km to the %s', async (_, place) => {
    expect(distanceKm(HOME, place)).toBeGreaterThan(100);
    const moved = await filesOf(await nightAt(name, place));
    expect([...moved.keys()]).toEqual([...home.keys()]);
    for (const [file, text] of home) expect(difference(text, moved.get(file) ?? ''), file).toBeNull();
  });

  it('had something to hide: the whole report of the two differs', async () => {
    const [other] = away;
    if (other === undefined) throw new Error('there is no other place');
    const record = async (place: typeof HOME): Promise<string> =>
      JSON.stringify(toRecord(await nightAt(name, place), '0', true));
    expect(await record(HOME)).not.toBe(await record(other[1]));
  });
});
