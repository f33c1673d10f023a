/** Charts that are asked for again, to the last figure: drawn once in a process. */
import { createHash } from 'node:crypto';
import { serialize } from 'node:v8';
import { drawHere, type ChartJob } from '../../src/report/charts/page-chart.js';
import { drawBy } from '../../src/report/charts/thread.js';
import { pageSvg } from '../../src/report/charts/svg.js';

const drawn = new Map<string, Promise<string>>();

const digestOf = (bytes: Buffer | string): string => createHash('sha1').update(bytes).digest('base64');

export function drawnOnce(job: ChartJob): Promise<string> {
  const key = digestOf(serialize(job));
  const known = drawn.get(key) ?? drawHere(job);
  drawn.set(key, known);
  return known;
}

/** A picture of nothing with its label, for tests that read words: drawing takes half of a report's time. */
export function undrawn({ id, label, widthPx, heightPx }: ChartJob): Promise<string> {
  return Promise.resolve(pageSvg(`<svg width="${widthPx}" height="${heightPx}"></svg>`, id, label));
}

/** In a picture's place what tells it from every other: pages with it are the same where their pictures would be. */
export function digested(job: ChartJob): Promise<string> {
  return Promise.resolve(pageSvg(`<svg><text>${digestOf(JSON.stringify(job))}</text></svg>`, job.id, job.label));
}

/** Does what makes pages whose pictures nobody looks at. */
export async function withoutDrawing<T>(work: () => Promise<T>, instead = undrawn): Promise<T> {
  const before = drawBy(instead);
  try {
    return await work();
  } finally {
    drawBy(before);
  }
}
