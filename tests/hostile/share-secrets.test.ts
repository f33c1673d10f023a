import { beforeAll, describe, expect, it } from 'vitest';
import { durationMs, sum, type Night } from '../../src/model/index.js';
import { nightRecordSchema, toRecord } from '../../src/record/index.js';
import { FORMATS, renderHtml } from '../../src/report/index.js';
import { shareNight } from '../../src/share.js';
import { withoutDrawing } from '../support/drawn-once.js';
import { namedNight, NIGHT_NAMES } from '../support/nights.js';
import { some } from '../support/runs.js';
import { revealingNight, SECRETS } from '../support/secrets.js';
import { sampleNight } from '../support/sample-night.js';

const CONTEXT = { nowMs: Date.parse('2026-10-20T08:00:00Z'), version: '0.0.0' };
const text = (content: string | Uint8Array): string =>
  typeof content === 'string' ? content : Buffer.from(content).toString('latin1');

/** A page's text, without fonts and places of drawings, in which any figure may turn up by chance. */
const readable = (html: string): string =>
  html
    .replaceAll(/<style>[\s\S]*?<\/style>/g, '')
    .replaceAll(/ (?:d|x|y|x1|x2|y1|y2|width|height|transform|viewBox|data-value)="[^"]*"/g, '');

async function outputsOf(night: Night, share: boolean): Promise<Record<string, string>> {
  const formats = FORMATS.filter((format) => format.extension !== 'png');
  const exports = formats.map(
    async (f) => [`${f.id}.${f.extension}`, text(await f.render(night, { ...CONTEXT, share }))] as const,
  );
  return {
    'report.html': readable(await renderHtml(night, { ...CONTEXT, share })),
    'night.json': JSON.stringify(toRecord(night, '0.0.0', false)),
    ...Object.fromEntries(await Promise.all(exports)),
  };
}

describe('a shared night', () => {
  let shared: Record<string, string> = {};
  let plain: Record<string, string> = {};
  beforeAll(async () => {
    shared = await outputsOf(shareNight(revealingNight()), true);
    plain = await withoutDrawing(() => outputsOf(revealingNight(), false));
  });

  it.each(SECRETS)('keeps %s out of every output', (secret) => {
    for (const [name, content] of Object.entries(shared))
      expect(content.toLowerCase().includes(secret.toLowerCase()), name).toBe(false);
  });

  it('had something to hide: most secrets stand in the whole report', () => {
    const reported = SECRETS.filter((secret) => Object.values(plain).some((content) => content.includes(secret)));
    expect(reported.length).toBeGreaterThan(SECRETS.length / 2);
  });

  it('names files by train, filter and number, and says that times count from the first exposure', () => {
    expect(shared['report.html']).toContain('heron Ha 0002');
    expect(shared['report.html']).toContain('times since the first exposure');
    expect(shared['report.html']).toContain('Shared edition');
    expect(shared['report.html']).not.toMatch(/Sunset|Moonrise/);
  });
});

describe.each(some(NIGHT_NAMES, 4))('the shared edition of %s', (name) => {
  it('has the verdicts and totals of the whole, ledgers that balance, and a valid record', () => {
    const night = namedNight(name);
    const shared = shareNight(night);
    expect(shared.accounts.lights.map((f) => [f.verdict, f.causes.map((c) => c.kind)])).toEqual(
      night.accounts.lights.map((f) => [f.verdict, f.causes.map((c) => c.kind)]),
    );
    const seconds = (n: Night) => n.accounts.totals.map((t) => Object.values(t.ms)).sort();
    expect(seconds(shared)).toEqual(seconds(night));
    for (const { totalsMs } of shared.accounts.ledgers)
      expect(sum(Object.values(totalsMs))).toBe(durationMs(shared.sky.window));
    expect(nightRecordSchema.safeParse(JSON.parse(JSON.stringify(toRecord(shared, '0', false)))).error).toBeUndefined();
  });
});

it('gives a mentor the waits of the whole night', async () => {
  const night = await sampleNight('twin-night');
  const waits = (n: Night) => n.accounts.dithers.map((d) => [d.holder, Object.values(d.waits).map((w) => w?.waitMs)]);
  expect(waits(shareNight(night))).toEqual(waits(night));
});
