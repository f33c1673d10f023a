/**
 * A refocus that made the stars much smaller: it was overdue.
 */
import {
  counted,
  duration,
  durationMs,
  groupBy,
  percent,
  sum,
  type NightFacts,
  focusRunsOf,
  type FocusRun,
} from '../model/index.js';
import type { FindingModule } from './finding.js';
import { sizedFrame } from './star-size.js';
import { lightsOf } from './trains.js';
import { clock, firstOf } from './wording.js';

interface Overdue {
  readonly run: FocusRun;
  /** Star size before and after the run, px. */
  readonly sizes: { readonly before: number; readonly after: number };
  /** How much larger the stars were before it, as a share of their size after it. */
  readonly excess: number;
  /** Kept frames since the refocus before, of the same filter, whose stars were larger by the limit. */
  readonly frames: number;
  /** What that cost point sources, ms. */
  readonly costMs: number;
}

export const overdueFocus: FindingModule<{ readonly growth: number }> = {
  id: 'overdue-focus',
  title: 'Overdue refocuses',
  needs: ['refocuses', 'focus-sizes'],
  // Refocus when stars have grown by a tenth: common practice, no source.
  defaults: { growth: 0.1 },
  find(night, { growth }) {
    const overdue = night.gathered.trains.flatMap(({ id }) => overdueRuns(night, id, growth));
    return [...groupBy(overdue, (o) => o.run.train)].map(([train, own]) => {
      const costMs = Math.round(sum(own.map((o) => o.costMs)));
      const worst = Math.max(...own.map((o) => 1 - 1 / (1 + o.excess)));
      const frames = sum(own.map((o) => o.frames));
      return {
        title:
          own.length === 1
            ? `${train}’s refocus at ${clock(own[0]?.run.span.startMs ?? 0, night)} was overdue: stars ` +
              `${percent(worst)} smaller after it`
            : `${counted(own.length, 'refocus', 'refocuses')} on ${train} were overdue: stars up to ` +
              `${percent(worst)} smaller after them`,
        costMs,
        ...(costMs === 0 ? { price: `stars ${percent(worst)} larger` } : {}),
        ...(frames > 0 ? { frames } : {}),
        evidence: [
          ...firstOf(own.map((o) => describe(o, night))),
          ...(costMs > 0
            ? ['the cost is that to point sources, by the square of the stars’ size']
            : ['star sizes of the frames before it are not known: what it cost is not known either']),
        ],
        advice:
          `Refocus ${train} sooner: when its stars have grown by ${percent(growth)}, after each filter change ` +
          'without a known offset, and with the falling temperature of the evening.',
        // Whether an earlier refocus would have held is not known.
        confidence: 'medium' as const,
        links: [{ text: 'Stars and focus', anchor: 'stars' }],
      };
    });
  },
};

function overdueRuns(night: NightFacts, train: string, growth: number): Overdue[] {
  const runs = focusRunsOf(night, train);
  return runs.flatMap((run, i): Overdue[] => {
    const { sizeBefore, sizeAfter, afterFilterChange, span } = run;
    // One after a filter change makes up for a missing offset, which is another matter.
    if (afterFilterChange || sizeBefore === null || sizeAfter === null || sizeAfter <= 0) return [];
    if (1 - sizeAfter / sizeBefore < growth) return [];
    const sinceMs = runs[i - 1]?.span.endMs ?? -Infinity;
    const after = lightsOf(night, train).find((f) => f.exposure.startMs >= span.endMs - 1000);
    const swollen = lightsOf(night, train)
      .filter((f) => f.exposure.startMs >= sinceMs && f.exposure.endMs <= span.startMs + 1000)
      .filter((f) => f.filter === after?.filter)
      .flatMap((f) => sizedFrame(f, night))
      .map(({ frame, size }) => ({ ms: durationMs(frame.exposure), by: size / sizeAfter - 1 }))
      .filter(({ by }) => by >= growth);
    return [
      {
        run,
        sizes: { before: sizeBefore, after: sizeAfter },
        excess: sizeBefore / sizeAfter - 1,
        frames: swollen.length,
        costMs: sum(swollen.map(({ ms, by }) => ms * (1 - 1 / (1 + by) ** 2))),
      },
    ];
  });
}

function describe({ run, sizes, frames, costMs }: Overdue, night: NightFacts): string {
  const { span } = run;
  const cost = frames > 0 ? `; ${counted(frames, 'frame')} before it with larger stars, ${duration(costMs)}` : '';
  return `${clock(span.startMs, night)}: from ${sizes.before.toFixed(2)} to ${sizes.after.toFixed(2)} ` + `px${cost}`;
}
