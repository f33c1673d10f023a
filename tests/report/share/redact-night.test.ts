import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, it } from 'vitest';
import { ACCOUNTS, durationMs, type Night } from '../../../src/model/index.js';
import { FORMATS, redactNight, renderHtml } from '../../../src/report/index.js';
import { readNights } from '../../../src/pipeline.js';
import { toRecord } from '../../../src/record/index.js';
import { namedNight, NIGHT_NAMES } from '../../support/nights.js';
import { revealingNight, SECRETS } from '../../support/secrets.js';

const CONTEXT = { nowMs: Date.parse('2026-10-20T08:00:00Z'), version: '0.0.0' };
const text = (content: string | Uint8Array): string =>
  typeof content === 'string' ? content : Buffer.from(content).toString('latin1');

/** A page's text, without fonts and places of drawings, in which any figure may turn up by chance. */
const readable = (html: string): string =>
  html
    .replaceAll(/<style>[\s\S]*?<\/style>/g, '')
    .replaceAll(/ (?:d|x|y|x1|x2|y1|y2|width|height|transform|viewBox|data-value)="[^"]*"/g, '');

describe('a shared night', () => {
  let outputs: Record<string, string> = {};
  let plain: Record<string, string> = {};

  beforeAll(async () => {
    const make = async (night: Night, share: boolean): Promise<Record<string, string>> => ({
      'report.html': readable(await renderHtml(night, { ...CONTEXT, share })),
      'night.json': JSON.stringify(toRecord(night, '0.0.0')),
      ...Object.fromEntries(
        await Promise.all(
          FORMATS.filter((format) => format.extension !== 'png').map(
            async (format) => [`${format.id}.${format.extension}`, text(await format.render(night, CONTEXT))] as const,
          ),
        ),
      ),
    });
    outputs = await make(redactNight(revealingNight()), true);
    plain = await make(revealingNight(), false);
  });

  it.each(SECRETS)('keeps %s out of every output', (secret) => {
    for (const [name, content] of Object.entries(outputs))
      expect(content.toLowerCase().includes(secret.toLowerCase()), name).toBe(false);
  });

  it('had something to hide: most secrets stand in the unshared report', () => {
    const told = SECRETS.filter((secret) => Object.values(plain).some((content) => content.includes(secret)));
    expect(told.length).toBeGreaterThan(SECRETS.length / 2);
  });

  it('still says where it was to a degree, and that it is the shared edition', () => {
    expect(outputs['report.html']).toContain('40° N, 1° W, 1100 m');
    expect(outputs['report.html']).toContain('Shared edition');
  });

  it('keeps the names of files', () => {
    expect(outputs['report.html']).toContain('heron_IC1396_Ha_0002.fits');
    expect(outputs['report.html']).toContain('heron.jsonl:');
  });
});

describe('redactNight', () => {
  it.each(NIGHT_NAMES)('leaves verdicts, totals and waits as they are: %s', (name) => {
    const night = namedNight(name);
    const shared = redactNight(night);
    expect(shared.accounts.lights.map((frame) => [frame.id, frame.verdict, durationMs(frame.exposure)])).toEqual(
      night.accounts.lights.map((frame) => [frame.id, frame.verdict, durationMs(frame.exposure)]),
    );
    expect(shared.accounts.totals.map((total) => total.ms)).toEqual(night.accounts.totals.map((total) => total.ms));
    expect(shared.accounts.dithers).toEqual(night.accounts.dithers);
  });

  it.each(NIGHT_NAMES)('keeps every ledger in balance over the window it leaves: %s', (name) => {
    const shared = redactNight(namedNight(name));
    for (const ledger of shared.accounts.ledgers) {
      expect(ACCOUNTS.reduce((sum, account) => sum + ledger.totalsMs[account], 0)).toBe(durationMs(shared.sky.window));
      expect(ledger.segments.reduce((sum, segment) => sum + durationMs(segment.span), 0)).toBe(
        durationMs(shared.sky.window),
      );
    }
  });

  it('is the same when done twice', () => {
    const once = redactNight(revealingNight());
    expect(redactNight(once)).toEqual(once);
  });

  it('does not touch what it is given', () => {
    const night = revealingNight();
    const before = JSON.stringify(night);
    redactNight(night);
    expect(JSON.stringify(night)).toBe(before);
  });

  it('makes the sky as coarse as the site: it would tell the place otherwise', () => {
    const shared = redactNight(namedNight('twin-night'));
    const step = 5 * 60_000;
    const {
      sky: { almanac: sky },
    } = shared;
    for (const atMs of [
      sky?.sunsetMs,
      sky?.sunriseMs,
      sky?.twilight.nautical.duskMs,
      sky?.moon.setMs,
      shared.sky.window.startMs,
      shared.sky.window.endMs,
    ])
      expect((atMs ?? 1) % step).toBe(0);
    for (const position of [
      ...shared.sky.curves.flatMap((curve) => curve.points),
      ...shared.accounts.lights.flatMap((frame) => frame.sky ?? []),
    ]) {
      for (const value of [
        position.altitudeDeg,
        position.azimuthDeg,
        position.moonAltitudeDeg,
        position.moonSeparationDeg,
        position.sunAltitudeDeg,
      ])
        expect(Number.isInteger(value)).toBe(true);
    }
  });

  it('has nothing to do where the site is not known', () => {
    expect(redactNight(namedNight('no-site')).gathered.site).toBeNull();
  });
});

describe('a shared sample session', () => {
  it('has no path, no name of the site and no finer place in page and record', async () => {
    const [night] = await readNights(
      fileURLToPath(new URL('../../../sample-sessions/twin-night', import.meta.url)),
      CONTEXT,
    );
    if (!night) throw new Error('the sample session has no night');
    const shared = redactNight(night);
    const texts = [
      readable(await renderHtml(night, { ...CONTEXT, share: true })),
      JSON.stringify(toRecord(shared, '0.0.0')),
    ];
    for (const text of texts) expect(text).not.toMatch(/Cierzo|logs\/|frames\/|40\.42|1\.12\D0/);
    expect(shared.accounts.lights.every((frame) => frame.header?.cards === undefined)).toBe(true);
    expect(redactNight(shared)).toEqual(shared);
  });
});
