import { beforeAll, describe, expect, it } from 'vitest';
import type { Night } from '../../src/model/index.js';
import { readNights } from '../../src/pipeline.js';
import { FORMATS } from '../../src/report/formats/index.js';
import { nightPages } from '../../src/report/index.js';
import { CIERZO_HILL, HERON, WREN } from '../support/generator/scenarios.js';
import { writeFiles } from '../support/generator/samples.js';
import { writeSession } from '../support/generator/write-session.js';
import { TEST_NOW_MS } from '../support/sample-night.js';
import { cleanUp, tempFolder } from '../support/temp-folder.js';

cleanUp();

/** High at midnight in March from 30° south; J2000, from memory. */
const FIELD = { name: 'NGC 3372', ra: '10:45:00', dec: '-59:52:00', raDeg: 161.25, decDeg: -59.87 };

/**
 * A night at sea at 179° east, where no boundary gives a zone: UTC+12 by the longitude. Its evening, 20 h to 2 h, is
 * 8 h to 14 h in UTC, so that a time by the wrong clock shows.
 */
async function nightAtSea(): Promise<Night> {
  const { files } = writeSession({
    name: 'at-sea',
    seed: 9,
    begin: '2026-03-10T08:30:00.000Z',
    end: '2026-03-10T13:30:00.000Z',
    site: { ...CIERZO_HILL, latitude: -30, longitude: 179, timezone: 'UTC' },
    trains: [HERON, WREN].map((t) => ({
      ...t,
      plan: [{ target: FIELD.name, filter: 'Ha', seconds: 300, count: 60 }],
      refocusAfter: [8, 20],
    })),
    targets: [FIELD],
    ditherEvery: 3,
    starLost: [{ at: '2026-03-10T10:20:00.000Z', seconds: 60 }],
    clouds: [{ from: '2026-03-10T11:31:00.000Z', to: '2026-03-10T11:48:00.000Z' }],
    guidingEverySeconds: 6,
    guidingSigmaArcsec: 0.6,
  });
  const rig = String(files.get('rig.yaml')).replace(/, *timezone: *\S+?(?=[ ,}])|^ *timezone:.*\n/m, '');
  expect(rig).not.toMatch(/timezone/);
  const folder = tempFolder();
  writeFiles(folder, new Map([...files, ['rig.yaml', rig]]));
  const [night] = await readNights(folder, { nowMs: TEST_NOW_MS });
  if (!night) throw new Error('no night was read');
  return night;
}

/** Times of day in a page or text, less what is labelled otherwise: UTC, the Moon's passages, the colophon's date. */
function timesOfDay(text: string): string[] {
  const plain = text
    .replace(/<style[\s\S]*?<\/style>|<script[\s\S]*?<\/script>|data:[^"')]+/g, ' ')
    .replace(/ (?:d|points|transform|viewBox|id|href|class|style)="[^"]*"/g, ' ')
    .replace(/<[^>]+>/g, ' ')
    .replace(/Moon(?:rise|set)\s+[\d:]+/g, ' ')
    .replace(/\d{4}-\d\d-\d\dT[\d:.]+Z|\d\d:\d\d(?::\d\d)?\s*UTC(?![+−-])|[+−-]\d\d:\d\d:\d\d/g, ' ');
  return plain.match(/(?<![\d:+−-])[0-2]\d:[0-5]\d(?::[0-5]\d)?(?![\d:])/g) ?? [];
}

const isAtNight = (time: string): boolean => {
  const hour = Number(time.slice(0, 2));
  return hour >= 18 || hour <= 7;
};

describe('a night whose zone is the longitude’s hour', () => {
  let night: Night;
  let texts: ReadonlyMap<string, string>;

  beforeAll(async () => {
    night = await nightAtSea();
    const { page, print } = await nightPages(night, { nowMs: TEST_NOW_MS, version: 'test' });
    const summary = await FORMATS[0].render(night, { nowMs: TEST_NOW_MS, version: 'test' });
    texts = new Map([
      ['page', page],
      ['brief edition', print('brief').html({ level: 0, pageOf: null })],
      ['full edition', print('full').html({ level: 0, pageOf: null })],
      ['summary', String(summary)],
    ]);
  }, 120_000);

  it('says so', () => {
    expect(night.gathered.site?.timezone).toBe('UTC+12');
    expect(texts.get('page')).toContain('times in UTC+12');
    expect(night.findings.ranked.length).toBeGreaterThan(0);
  });

  it.each(['page', 'brief edition', 'full edition'])('has no time by another clock on its %s', (name) => {
    const times = timesOfDay(texts.get(name) ?? '');
    expect(times.length).toBeGreaterThan(10);
    expect(times.filter((time) => !isAtNight(time))).toEqual([]);
  });

  it('has none in its summary', () => {
    expect(timesOfDay(texts.get('summary') ?? '').filter((time) => !isAtNight(time))).toEqual([]);
  });
});
