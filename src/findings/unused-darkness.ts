/**
 * Darkness at either end of the night in which nothing was exposed, though the target stood high enough.
 */
import {
  CAUTION,
  clip,
  coveredMs,
  duration,
  durationMs,
  interval,
  listed,
  subtract,
  sum,
  union,
  calibrationOf,
  type Interval,
  type JudgedFrame,
  type NightFacts,
} from '../model/index.js';
import type { FindingDraft, FindingModule, TrainSpan } from './finding.js';
import { lightsOf } from './trains.js';
import { clock } from './wording.js';

type End = 'dusk' | 'dawn';

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
    const free = freeSpans(end, edge, night);
    return coveredMs(free) >= minimumMinutes * 60_000 ? [{ train: id, edge, free, ms: coveredMs(free) }] : [];
  });
  if (idle.length === 0) return [];
  const costMs = sum(idle.map((i) => i.ms));
  const setupMs = end === 'dusk' ? setupMinutes * 60_000 * idle.length : 0;
  const knowsTarget = idle.every((i) => night.sky.curves.some((c) => c.target === i.edge.target));
  const edgeMs = end === 'dusk' ? night.sky.window.startMs : night.sky.window.endMs;
  const targets = [...new Set(idle.map((i) => i.edge.target ?? 'the target'))];
  return [
    {
      title:
        end === 'dusk'
          ? `${duration(Math.max(...idle.map((i) => i.ms)))} of darkness had gone before the first exposure`
          : `${duration(Math.max(...idle.map((i) => i.ms)))} of darkness were left after the last exposure`,
      costMs,
      evidence: [
        end === 'dusk'
          ? `dark from ${clock(edgeMs, night)}; ${listed(idle.map((i) => `${i.train} exposed from ${clock(i.edge.exposure.startMs, night)}`))}`
          : `${listed(idle.map((i) => `${i.train} exposed until ${clock(i.edge.exposure.endMs, night)}`))}; dark until ${clock(edgeMs, night)}`,
        `${listed(idle.map((i) => `${duration(i.ms)} on ${i.train}`))}${knowsTarget ? `, counted while ${listed(targets)} stood above the limit, without holds` : ''}`,
      ],
      advice:
        end === 'dusk'
          ? `Be ready at ${clock(edgeMs, night)}: cameras cooled ten minutes before, pointed and focused in the last twilight.`
          : `Let the sequence run to ${clock(edgeMs, night)}, or give it a target for the morning; let mount and roof close by themselves only if you trust them to.`,
      winMs: Math.max(0, costMs - setupMs),
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

/** The part of the end in which the target of the nearest light was up and no hold kept the roof shut. */
function freeSpans(end: End, edge: JudgedFrame, night: NightFacts): Interval[] {
  const {
    sky: { window },
  } = night;
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
