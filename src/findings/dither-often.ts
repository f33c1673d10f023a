/**
 * More dithers than the stack needs.
 */
import {
  counted,
  duration,
  durationMs,
  groupBy,
  interval,
  isReplayed,
  median,
  partitionPoint,
  sum,
  type DitherCycle,
  type JudgedFrame,
  type NightFacts,
  lightsOf,
} from '../model/index.js';
import type { FindingModule, TrainSpan } from './finding.js';
import { bestWhatIf } from './trains.js';

export const ditherOften: FindingModule<{
  readonly usualEvery: number;
  readonly places: number;
  readonly minimumMinutes: number;
}> = {
  id: 'dither-often',
  title: 'Dithers in excess',
  needs: ['dithers', 'lights'],
  // Every third frame, and a dozen places a filter, are common practice; no source.
  defaults: { usualEvery: 3, places: 12, minimumMinutes: 5 },
  find(night, { usualEvery, places, minimumMinutes }) {
    const trains = night.gathered.trains
      .map((t) => ({ id: t.id, lights: lightsOf(night, t.id) }))
      .filter((t) => t.lights.length > 0);
    // The train with fewest frames a dither decides: it must still see enough places.
    const counts = trains.map((t) => ({ id: t.id, every: framesPerDither(t.lights, night.accounts.dithers) }));
    const least = counts.reduce((a, b) => (b.every < a.every ? b : a), { id: '', every: Infinity });
    const { every } = least;
    const fewest = Math.min(
      ...trains.flatMap((t) =>
        [...groupBy(t.lights, (f) => `${f.target}/${f.filter}`).values()].map((own) => own.length),
      ),
    );
    const enough = Math.max(1, Math.min(usualEvery, Math.floor(fewest / places)));
    if (!Number.isFinite(every) || every >= enough) return [];
    const surplus = night.accounts.dithers.filter(
      (_, i) => Math.floor(((i + 1) * every) / enough) === Math.floor((i * every) / enough),
    );
    const minutes = surplus.flatMap((cycle) => spent(cycle));
    const costMs = sum(minutes.map((m) => durationMs(m.span)));
    if (costMs < minimumMinutes * 60_000) return [];
    // The replay counts the frames of the train that leads, which need not be the one with fewest.
    const leads = isReplayed(night.replay) ? night.replay.dither : null;
    const replayed =
      leads && bestWhatIf(night, (w) => w.id === `dither-every-${Math.round((leads.frames * enough) / every)}`);
    return [
      {
        title:
          `${counted(night.accounts.dithers.length, 'dither')}, where ` +
          `${night.accounts.dithers.length - surplus.length} would have been enough`,
        costMs,
        evidence: [
          'a dither every ' +
            `${every === 1 ? 'frame' : `${every} frames`}${trains.length > 1 ? ` of ${least.id}` : ''}; the ` +
            `filter with fewest frames has ${fewest}, so every ${enough} frames still give it ` +
            `${Math.floor(fewest / enough)} places`,
          ...(replayed
            ? [
                `replayed with so many fewer dithers, the night keeps ${duration(replayed.gain.meanMs)} more ` +
                  'on all trains together',
              ]
            : []),
        ],
        advice:
          `Dither every ${enough} frames: ${places} places a filter are enough for what is fixed on the sensor ` +
          'to average out.',
        // A replay that knows the night and finds no gain within the limits promises none.
        ...(replayed ? { winMs: replayed.gain.meanMs } : leads ? {} : { winMs: costMs }),
        confidence: replayed ? 'high' : 'medium',
        links: [
          { text: 'The night replayed', anchor: 'replay' },
          { text: 'Dither cycles', anchor: 'dithers' },
        ],
        minutes,
      },
    ];
  },
};

/** Median frames of a train between two neighbouring dithers; ∞ where there are fewer than two. */
function framesPerDither(lights: readonly JudgedFrame[], dithers: NightFacts['accounts']['dithers']): number {
  const counts = dithers
    .slice(1)
    .map((cycle, i) => begun(lights, cycle.beginMs) - begun(lights, dithers[i]?.beginMs ?? -Infinity));
  const some = counts.filter((c) => c > 0);
  return some.length < 2 ? Infinity : Math.round(median(some));
}

function begun(lights: readonly JudgedFrame[], atMs: number): number {
  return partitionPoint(lights, (f) => f.exposure.startMs >= atMs);
}

/** What one dither took of each train: its wait, the move, the settling. */
function spent(cycle: DitherCycle): TrainSpan[] {
  const endMs = cycle.settle?.endMs ?? cycle.move.endMs;
  return Object.entries(cycle.waits).flatMap(([train, wait]): TrainSpan[] =>
    wait ? [{ train, span: interval(wait.readyMs, Math.max(wait.readyMs, endMs)) }] : [],
  );
}
