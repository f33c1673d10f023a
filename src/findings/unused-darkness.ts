/**
 * Darkness at either end of the night in which nothing was exposed, though the target stood high enough. Broad bands
 * need the astronomical night, narrow ones the nautical one (common practice, no source).
 */
import {
  CAUTION,
  clip,
  coveredMs,
  duration,
  durationMs,
  interval,
  listed,
  percent,
  subtract,
  sum,
  union,
  calibrationOf,
  type Interval,
  type JudgedFrame,
  type NightFacts,
  lightsOf,
} from '../model/index.js';
import type { FindingDraft, FindingModule, TrainSpan } from './finding.js';
import { darknessFor, kindFor } from './darkness-for.js';
import { keptShare } from './trains.js';
import { clock } from './wording.js';

type End = 'dusk' | 'dawn';

/** So much sooner or later than darkness, a target's own limit is what counts, ms. */
const TARGETS_OWN_MS = 300_000;
/** Less darkness than this is not worth another target, ms. Common practice, no source. */
const ANOTHER_MS = 1_200_000;

export const unusedDarkness: FindingModule<{ readonly minimumMinutes: number; readonly setupMinutes: number }> = {
  id: 'unused-darkness',
  title: 'Darkness unused at dusk and dawn',
  needs: ['sky', 'lights'],
  // Pointing, focusing and starting the guiding take about five minutes; common practice, no source.
  defaults: { minimumMinutes: 15, setupMinutes: 5 },
  find(night, { minimumMinutes, setupMinutes }) {
    // Where darkness never comes, the window's ends are nobody's fault.
    if (night.sky.almanac?.window.kind === 'sun-minimum') return [];
    return (['dusk', 'dawn'] as const).flatMap((end) => unusedAt(end, night, minimumMinutes, setupMinutes));
  },
};

function unusedAt(end: End, night: NightFacts, minimumMinutes: number, setupMinutes: number): FindingDraft[] {
  const idle = night.gathered.trains.flatMap(({ id }) => {
    const lights = lightsOf(night, id);
    const edge = end === 'dusk' ? lights[0] : lights.at(-1);
    if (!edge) return [];
    const dark = darknessFor(edge.filter, night);
    const free = dark === null ? [] : freeSpans(end, edge, dark, night);
    return dark !== null && coveredMs(free) >= minimumMinutes * 60_000
      ? [{ train: id, edge, dark, free, ms: coveredMs(free) }]
      : [];
  });
  if (idle.length === 0) return [];
  const costMs = sum(idle.map((i) => i.ms));
  const setupMs = end === 'dusk' ? setupMinutes * 60_000 : 0;
  // An hour of darkness is not an hour kept: readouts, dithers and lost frames take their part of it.
  const winMs = sum(idle.map((i) => Math.max(0, i.ms - setupMs) * keptShare(night, i.train)));
  const keeping = idle.filter((i) => keptShare(night, i.train) >= 0.005);
  const knowsTarget = idle.every((i) => night.sky.curves.some((c) => c.target === i.edge.target));
  const darkMs =
    end === 'dusk' ? Math.min(...idle.map((i) => i.dark.startMs)) : Math.max(...idle.map((i) => i.dark.endMs));
  const targets = [...new Set(idle.map((i) => i.edge.target ?? 'the target'))];
  // What counts begins when the target stands high enough, and ends when it no longer does.
  const free = idle.flatMap((i) => i.free);
  const edgeMs = end === 'dusk' ? Math.min(...free.map((s) => s.startMs)) : Math.max(...free.map((s) => s.endMs));
  const isTargets = targets.length === 1 && Math.abs(edgeMs - darkMs) >= TARGETS_OWN_MS;
  const kinds = [...new Set(idle.map((i) => kindFor(i.edge.filter)))];
  return [
    {
      title: titleOf(end, Math.min(...idle.map((i) => i.ms)), isTargets ? listed(targets) : null),
      costMs,
      evidence: [
        end === 'dusk'
          ? `dark enough from ${clock(darkMs, night)} (${listed(kinds)} darkness); ` +
            `${listed(idle.map((i) => `${i.train} exposed from ${clock(i.edge.exposure.startMs, night)}`))}`
          : `${listed(idle.map((i) => `${i.train} exposed until ${clock(i.edge.exposure.endMs, night)}`))}; dark ` +
            `enough until ${clock(darkMs, night)} (${listed(kinds)} darkness)`,
        listed(idle.map((i) => `${duration(i.ms)} on ${i.train}`)) +
          (knowsTarget ? `, counted while ${listed(targets)} stood above the limit, without holds` : ''),
        keeping.length > 0
          ? 'recoverable: what the night kept of each working hour, ' +
            listed(keeping.map((i) => `${percent(keptShare(night, i.train))} on ${i.train}`)) +
            (end === 'dusk' ? `, less ${setupMinutes} min to point, focus and start the guiding` : '')
          : 'nothing was kept on this night: what these hours are worth is not known',
      ],
      advice:
        end === 'dusk'
          ? `Be ready at ${clock(edgeMs, night)}${isTargets ? `, when ${listed(targets)} stands high enough` : ''}: ` +
            'have the cameras cold ten minutes before, point and focus ' +
            (isTargets ? 'before that.' : 'in the last twilight.')
          : `Let the sequence run to ${clock(edgeMs, night)}` +
            (isTargets
              ? `, when ${listed(targets)} sinks to its limit` +
                (darkMs - edgeMs < ANOTHER_MS
                  ? '. Let '
                  : `; another target could use the darkness until ${clock(darkMs, night)}. Let `)
              : ', or give it a target for the morning; let ') +
            'mount and roof close by themselves only if you trust them to.',
      ...(keeping.length > 0 ? { winMs: Math.round(winMs) } : {}),
      confidence: knowsTarget ? 'medium' : 'low',
      links: [
        { text: 'Ledger', anchor: 'ledger' },
        { text: 'Sky', anchor: 'sky' },
      ],
      ...(end === 'dawn' ? { caution: CAUTION } : {}),
      minutes: idle.flatMap((i) => i.free.map((span): TrainSpan => ({ train: i.train, span }))),
    },
  ];
}

function titleOf(end: End, ms: number, target: string | null): string {
  if (end === 'dusk')
    return `First exposure ${duration(ms)} after ${target === null ? 'dark' : `${target} stood high enough`}`;
  const before = target === null ? 'the end of darkness' : `${target} sank to its limit`;
  return `Last exposure ended ${duration(ms)} before ${before}`;
}

/** The part of the end in which the target of the nearest light was up and no hold kept the roof shut. */
function freeSpans(end: End, edge: JudgedFrame, window: Interval, night: NightFacts): Interval[] {
  const span =
    end === 'dusk'
      ? interval(window.startMs, Math.max(window.startMs, edge.exposure.startMs))
      : interval(Math.min(window.endMs, edge.exposure.endMs), window.endMs);
  if (durationMs(span) === 0) return [];
  const up = night.sky.curves.find((c) => c.target === edge.target)?.up;
  const holds = night.timeline.activities
    .filter((a) => a.kind === 'hold' && (a.train === undefined || a.train === edge.train))
    .map((a) => a.span);
  const calibration = calibrationOf(night)
    .filter((f) => f.train === edge.train)
    .map((f) => f.exposure);
  return subtract(up ? clip(union(up), span) : [span], [...holds, ...calibration]);
}
