import { existsSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { CHARTS } from '../../../src/report/charts/index.js';
import { CHART_WIDTH, type Chart, type ChartDrawing, type ChartSize } from '../../../src/report/charts/chart.js';
import { paletteOf } from '../../../src/report/design/filters.js';
import { clockOf } from '../../../src/vocabulary/index.js';
import { drawnOnce } from '../../support/drawn-once.js';
import { namedNight, NIGHT_NAMES } from '../../support/nights.js';
import { some } from '../../support/runs.js';

const BROKEN = /\b(?:NaN|undefined|null|Infinity)\b/;

const svgOf = ({ id }: Chart, { config, heightPx, altText: label }: ChartDrawing, size: ChartSize): Promise<string> =>
  drawnOnce({ config, widthPx: CHART_WIDTH[size], heightPx, id: `${id}-${size}`, label });

describe('the registry of charts', () => {
  it('has a file and a test of each chart’s name', () => {
    for (const { id } of CHARTS) {
      expect(existsSync(new URL(`../../../src/report/charts/${id}.ts`, import.meta.url)), id).toBe(true);
      expect(existsSync(new URL(`./${id}.test.ts`, import.meta.url)), id).toBe(true);
    }
    expect(new Set(CHARTS.map((chart) => chart.id)).size).toBe(CHARTS.length);
  });

  it.each(some(NIGHT_NAMES, 6))('draws every chart of every night, or says what is missing: %s', async (name) => {
    const night = namedNight(name);
    const context = { clock: clockOf(night.gathered.site?.timezone ?? 'UTC'), palette: paletteOf(night) };
    for (const chart of CHARTS as readonly Chart[]) {
      for (const size of ['wide', 'narrow'] as const) {
        const drawing = chart.draw(night, { ...context, size });
        if ('missing' in drawing) {
          expect(drawing.missing, chart.id).toMatch(/\w/);
          continue;
        }
        const svg = await svgOf(chart, drawing, size);
        expect(svg, `${chart.id}, ${size}`).not.toMatch(BROKEN);
        expect(svg, `${chart.id}: a colour that follows no theme`).not.toMatch(
          /(?:fill|stroke)="(?!none|var\(--)[^"]+"/,
        );
        expect(svg.match(/ d="M/g)?.length ?? 0, `${chart.id}: ink`).toBeGreaterThan(3);
        expect(drawing.altText).toMatch(/\.$/);
        expect(drawing.altText).not.toMatch(BROKEN);
        expect(JSON.stringify(drawing.table ?? '')).not.toMatch(/"(?:NaN|undefined|null|Infinity)"/);
      }
    }
  });

  it('does not grow with the night without bound', async () => {
    const night = namedNight('three-trains');
    for (const chart of CHARTS as readonly Chart[]) {
      const drawing = chart.draw(night, { clock: clockOf('UTC'), palette: paletteOf(night), size: 'wide' });
      if (!('missing' in drawing)) expect((await svgOf(chart, drawing, 'wide')).length, chart.id).toBeLessThan(60_000);
    }
  });
});
