import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Papa from 'papaparse';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { nightTitle, type Night } from '../../src/model/index.js';
import { readNights } from '../../src/pipeline.js';
import { canvasWithFonts } from '../../src/report/canvas-fonts.js';
import { card } from '../../src/report/formats/card.js';
import { frames } from '../../src/report/formats/frames.js';
import { FORMATS } from '../../src/report/formats/index.js';
import { nightPages } from '../../src/report/index.js';
import { withoutDrawing } from '../support/drawn-once.js';
import { CIERZO_HILL, HERON, WREN } from '../support/generator/scenarios.js';
import { writeFiles } from '../support/generator/samples.js';
import { nightledgerIn } from '../support/command-line.js';
import { writeSession, type SessionFiles } from '../support/generator/write-session.js';
import { some } from '../support/runs.js';
import { TEST_NOW_MS } from '../support/sample-night.js';

/** High at midnight from 30° south; J2000, from memory. */
const IN_MARCH = { name: 'NGC 3372', ra: '10:45:00', dec: '-59:52:00', raDeg: 161.25, decDeg: -59.87 };
const AT_NEW_YEAR = { name: 'NGC 2359', ra: '07:18:31', dec: '-13:13:37', raDeg: 109.629, decDeg: -13.227 };

/**
 * A night at sea at 30° south, 179° east, where no boundary gives a zone: UTC+12 by the longitude. Its evening, 20 h to
 * 2 h, is 8 h to 14 h in UTC, so that a time by the wrong clock shows.
 */
function nightAtSea(date: string, field: typeof IN_MARCH): SessionFiles {
  const { files } = writeSession({
    name: 'at-sea',
    seed: 9,
    begin: `${date}T08:30:00.000Z`,
    end: `${date}T13:30:00.000Z`,
    site: { ...CIERZO_HILL, latitude: -30, longitude: 179, timezone: 'UTC' },
    trains: [HERON, WREN].map((t) => ({
      ...t,
      plan: [{ target: field.name, filter: 'Ha', seconds: 300, count: 60 }],
      refocusAfter: [8, 20],
    })),
    targets: [field],
    ditherEvery: 3,
    starLost: [{ at: `${date}T10:20:00.000Z`, seconds: 60 }],
    clouds: [{ from: `${date}T11:31:00.000Z`, to: `${date}T11:48:00.000Z` }],
    guidingEverySeconds: 6,
    guidingSigmaArcsec: 0.6,
  });
  const rig = String(files.get('rig.yaml')).replace(/, *timezone: *\S+?(?=[ ,}])|^ *timezone:.*\n/m, '');
  expect(rig).not.toMatch(/timezone/);
  return new Map([...files, ['rig.yaml', rig]]);
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

/** The texts written on the card's canvas. */
async function wordsOnCard(night: Night): Promise<string[]> {
  const { createCanvas } = await canvasWithFonts();
  const drawn = vi.spyOn(Object.getPrototypeOf(createCanvas(1, 1).getContext('2d')), 'fillText');
  await card.render(night, { nowMs: TEST_NOW_MS, version: 'test' });
  const words = drawn.mock.calls.map(([text]) => String(text));
  drawn.mockRestore();
  return words;
}

/** On the first one the date is of one year by one clock, and of the next by another. */
const EVENINGS = [
  ['2025-12-31', AT_NEW_YEAR, '2026-01-01'],
  ['2026-03-10', IN_MARCH, '2026-03-11'],
] as const;

describe.each(some(EVENINGS, 1))('a night whose zone is the longitude’s hour, of %s', (date, field, next) => {
  const folder = mkdtempSync(join(tmpdir(), 'nightledger-one-clock-'));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  let night: Night;
  let texts: ReadonlyMap<string, string>;

  beforeAll(async () => {
    writeFiles(join(folder, 'night'), nightAtSea(date, field));
    const nights = await readNights(join(folder, 'night'), { nowMs: TEST_NOW_MS });
    const [only] = nights;
    if (!only || nights.length !== 1) throw new Error('one night was to be read');
    night = only;
    const { page, print } = await withoutDrawing(() => nightPages(night, { nowMs: TEST_NOW_MS, version: 'test' }));
    const summary = await FORMATS[0].render(night, { nowMs: TEST_NOW_MS, version: 'test' });
    texts = new Map([
      ['page', page],
      ['brief edition', print('brief').html({ level: 0, pageOf: null })],
      ['full edition', print('full').html({ level: 0, pageOf: null })],
      ['summary', String(summary)],
    ]);
  }, 120_000);

  it('says so', () => {
    expect(night.date).toBe(date);
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

  it('has none on its card, which dates it by the evening', async () => {
    const words = await wordsOnCard(night);
    const hours = words.filter((word) => /^\d\d$/.test(word));
    expect(hours.length).toBeGreaterThan(1);
    expect(hours.filter((hour) => !isAtNight(hour))).toEqual([]);
    expect(words.flatMap(timesOfDay).filter((time) => !isAtNight(time))).toEqual([]);
    expect(words).toContain(`Night of ${nightTitle(date)}`);
  });

  it('has UTC in its list of frames, in a column that says so, and no other time', async () => {
    const { data } = Papa.parse<Record<string, string>>(
      String(await frames.render(night, { nowMs: TEST_NOW_MS, version: 'test' })),
      {
        header: true,
        skipEmptyLines: true,
      },
    );
    expect(data.map((row) => row.begin_utc)).toEqual(
      night.accounts.lights.map((f) => new Date(f.exposure.startMs).toISOString()),
    );
    for (const row of data)
      for (const [column, cell] of Object.entries(row))
        if (column !== 'begin_utc') expect(timesOfDay(cell)).toEqual([]);
  });

  it('stands in the archive, its progress and the next plan by the same clock', async () => {
    const run = (...args: string[]) => nightledgerIn(folder, ...args);
    const kept = await run('report', 'night', '--out', 'out', '--no-pdf', '--archive', 'kept');
    expect(kept.status, kept.stderr).toBe(0);
    const goals = `targets: [ { name: ${field.name}, goals: { Ha: 40h } } ]\n`;
    writeFiles(folder, new Map([['kept/goals.yaml', goals]]));
    const progress = await run('progress', 'kept', '--out', 'progress', '--from', next, '--no-pdf');
    expect(progress.status, progress.stderr).toBe(0);
    const shown = readFileSync(join(folder, 'progress', 'progress.html'), 'utf8');
    expect(timesOfDay(shown).filter((time) => !isAtNight(time))).toEqual([]);
    const plan = await run('plan', 'kept', '--night', next, '--nights', '1', '--out', 'plan', '--no-pdf');
    expect(plan.status, plan.stderr).toBe(0);
    for (const file of ['plan.txt', 'plan.html']) {
      const text = readFileSync(join(folder, 'plan', file), 'utf8');
      expect(text).toContain('UTC+12');
      expect(timesOfDay(text).length).toBeGreaterThan(0);
      expect(timesOfDay(text).filter((time) => !isAtNight(time))).toEqual([]);
    }
  }, 120_000);
});
