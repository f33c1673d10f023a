/** Charts that are asked for again, to the last figure: drawn once in a process. */
import { createHash } from 'node:crypto';
import { serialize } from 'node:v8';
import { drawHere, type ChartJob } from '../../src/report/charts/page-chart.js';
import { drawBy } from '../../src/report/charts/thread.js';
import { pageSvg } from '../../src/report/charts/svg.js';

const drawn = new Map<string, Promise<string>>();

export function drawnOnce(job: ChartJob): Promise<string> {
  const key = createHash('sha1').update(serialize(job)).digest('base64');
  const known = drawn.get(key) ?? drawHere(job);
  drawn.set(key, known);
  return known;
}

/** A picture of nothing with its label, for tests that read words: drawing takes half of a report's time. */
export function undrawn({ id, label, widthPx, heightPx }: ChartJob): Promise<string> {
  return Promise.resolve(pageSvg(`<svg width="${widthPx}" height="${heightPx}"></svg>`, id, label));
}

/** Does what makes pages whose pictures nobody looks at. */
export async function withoutDrawing<T>(work: () => Promise<T>): Promise<T> {
  const before = drawBy(undrawn);
  try {
    return await work();
  } finally {
    drawBy(before);
  }
}
