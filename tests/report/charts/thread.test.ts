import { describe, expect, it } from 'vitest';
import type { Chart } from '../../../src/report/charts/chart.js';
import { CHARTS } from '../../../src/report/charts/index.js';
import { drawBy, pageChart, startDrawing } from '../../../src/report/charts/thread.js';
import { drawHere } from '../../../src/report/charts/page-chart.js';
import { paletteOf } from '../../../src/report/design/filters.js';
import { clockOf } from '../../../src/vocabulary/index.js';
import { join } from 'node:path';
import { writeFileSync } from 'node:fs';
import { namedNight } from '../../support/nights.js';
import { cleanUp, tempFolder } from '../../support/temp-folder.js';

cleanUp();
const night = namedNight('twin-night');
const context = { clock: clockOf('UTC'), palette: paletteOf(night), size: 'wide' } as const;

function jobs() {
  return (CHARTS as readonly Chart[]).flatMap((chart) => {
    const drawing = chart.draw(night, context);
    return 'missing' in drawing
      ? []
      : [{ config: drawing.config, widthPx: 940, heightPx: drawing.heightPx, id: chart.id, label: drawing.altText }];
  });
}

describe('charts in a thread of their own', () => {
  it('are plain data: a copy is drawn the same', async () => {
    expect(jobs().length).toBeGreaterThan(5);
    for (const job of jobs()) expect(await drawHere(structuredClone(job)), job.id).toBe(await drawHere(job));
  });

  it('are drawn in the calling thread where the other ends', async () => {
    const program = join(tempFolder(), 'ends.mjs');
    writeFileSync(
      program,
      "import { parentPort } from 'node:worker_threads';\nparentPort.once('message', () => process.exit(1));\n",
    );
    const before = drawBy(drawHere);
    try {
      startDrawing(program);
      const [first, second] = jobs();
      if (first === undefined || second === undefined) throw new Error('the night has no charts');
      const drawn = await Promise.all([pageChart(first), pageChart(second)]);
      expect(drawn).toEqual([await drawHere(first), await drawHere(second)]);
      // And from then on.
      expect(await pageChart(first)).toBe(drawn[0]);
    } finally {
      drawBy(before);
    }
  });
});
