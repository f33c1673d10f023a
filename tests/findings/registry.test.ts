import { CAUTION } from '../../src/model/index.js';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { FINDINGS } from '../../src/findings/index.js';
import { renderHtml } from '../../src/report/index.js';
import { withoutDrawing } from '../support/drawn-once.js';
import { USUAL_NAMES } from '../support/nights.js';
import { inFull } from '../support/runs.js';
import { replayedNight } from '../support/replayed-night.js';
import { sampleNight } from '../support/sample-night.js';

describe('the registry of findings', () => {
  it('has a file and a test of each finding’s name', () => {
    for (const { id } of FINDINGS) {
      expect(existsSync(new URL(`../../src/findings/${id}.ts`, import.meta.url)), id).toBe(true);
      expect(existsSync(new URL(`./${id}.test.ts`, import.meta.url)), id).toBe(true);
    }
    expect(new Set(FINDINGS.map((f) => f.id)).size).toBe(FINDINGS.length);
  });

  it('leaves no finding out that has a file', () => {
    const files = readdirSync(new URL('../../src/findings/', import.meta.url)).map((f) => f.replace(/\.ts$/, ''));
    const tested = new Set(readdirSync(new URL('./', import.meta.url)).map((f) => f.replace(/\.test\.ts$/, '')));
    const shared = new Set(['count-once', 'robust-line', 'star-size']);
    expect(files.filter((f) => tested.has(f) && !shared.has(f)).sort()).toEqual(FINDINGS.map((f) => f.id).sort());
  });
});

describe('the guide to the findings', () => {
  const guide = readFileSync(new URL('../../docs/findings.md', import.meta.url), 'utf8');

  it('names every finding, and every limit with the value it has', () => {
    for (const { id, defaults } of FINDINGS) {
      const row = guide.split('\n').find((line) => line.startsWith(`| \`${id}\``));
      expect(row, id).toBeDefined();
      for (const [name, value] of Object.entries(defaults))
        expect(row, `${id}: ${name}`).toContain(`\`${name}\` ${value}`);
    }
  });
});

describe('the findings of every night', () => {
  it.each(USUAL_NAMES)(
    'are ranked by what can be recovered and complete sentences, with no hole in them: %s',
    (name) => {
      const {
        findings: { ranked: findings, notAssessed },
      } = replayedNight(name);
      // What most can be recovered from comes first, then what nobody can tell, dearest first, then what nothing can be
      // done about, dearest first.
      const rank = (f: (typeof findings)[number]) => (f.winMs === undefined ? 1 : f.winMs === 0 ? 2 : 0);
      expect(findings.map(rank)).toEqual(findings.map(rank).sort());
      for (const group of [0, 1, 2]) {
        const own = findings.filter((f) => rank(f) === group).map((f) => (group === 0 ? (f.winMs ?? 0) : f.costMs));
        expect(own).toEqual([...own].sort((a, b) => b - a));
      }
      for (const f of findings) {
        expect(f.advice, f.id).toMatch(/[.!]$/);
        expect(f.title, f.id).not.toMatch(/[.!]$/);
        expect(JSON.stringify(f), f.id).not.toMatch(/NaN|undefined|Infinity|null/);
        expect(f.costMs, f.id).toBeGreaterThanOrEqual(0);
        expect(f.winMs ?? 0, f.id).toBeGreaterThanOrEqual(0);
        expect(f.evidence.length, f.id).toBeGreaterThan(0);
        expect(Object.keys(f)).not.toContain('minutes');
      }
      for (const n of notAssessed) expect(n.missing).toMatch(/\w/);
    },
  );

  it.each(USUAL_NAMES)('ask each question or say what is missing: %s', (name) => {
    const {
      findings: { ranked: findings, notAssessed },
    } = replayedNight(name);
    const asked = new Set(FINDINGS.map((f) => f.id));
    for (const { id } of [...findings, ...notAssessed]) expect(asked).toContain(id);
    for (const { id } of notAssessed) expect(findings.map((f) => f.id)).not.toContain(id);
  });

  it('link to places that are in the report', async () => {
    for (const night of [
      replayedNight('twin-night'),
      replayedNight(inFull('three-trains', 'two-hours')),
      await sampleNight('twin-night'),
      await sampleNight('headers-only'),
    ]) {
      const html = await withoutDrawing(() => renderHtml(night, { nowMs: 0, version: 'test' }));
      const anchors = new Set([...html.matchAll(/ id="([^"]+)"/g)].map((m) => m[1]));
      const links = night.findings.ranked.flatMap((f) => f.links ?? []);
      expect(links.length).toBeGreaterThan(0);
      for (const { anchor } of links) expect(anchors, anchor).toContain(anchor);
    }
  });

  it('carry the caution wherever the advice touches mount, roof, cabling or power', async () => {
    const nights = [
      ...USUAL_NAMES.map(replayedNight),
      await sampleNight('twin-night'),
      await sampleNight('mixed-dialects'),
    ];
    const all = nights.flatMap((n) => n.findings.ranked);
    const touching = all.filter((f) =>
      /\b(mount|roof|cable|cables|hub|guide scope|pier|flip|backlash|balance|declination axis)\b/i.test(f.advice),
    );
    expect(touching.length).toBeGreaterThan(0);
    for (const f of touching) expect(f.caution, `${f.id}: ${f.advice}`).toBe(CAUTION);
  });
});
