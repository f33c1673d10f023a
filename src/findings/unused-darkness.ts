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
  intersect,
  interval,
  listed,
  percent,
  subtract,
  sum,
  union,
  calibrationOf,
  type Interval,
  type JudgedFrame,
  isNarrowband,
  type DarknessKind,
  type NightFacts,
  lightsOf,
} from '../model/index.js';
import type { FindingDraft, FindingModule, TrainSpan } from './finding.js';
import { keptShare } from './trains.js';
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
    const dark = darknessFor(edge, night);
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
  const edgeMs =
    end === 'dusk' ? Math.min(...idle.map((i) => i.dark.startMs)) : Math.max(...idle.map((i) => i.dark.endMs));
  const kinds = [...new Set(idle.map((i) => kindFor(i.edge.filter)))];
  const targets = [...new Set(idle.map((i) => i.edge.target ?? 'the target'))];
  return [
    {
      title:
        end === 'dusk'
          ? `First exposure ${duration(Math.min(...idle.map((i) => i.ms)))} after dark`
          : `Last exposure ended ${duration(Math.min(...idle.map((i) => i.ms)))} before the end of darkness`,
      costMs,
      evidence: [
        end === 'dusk'
          ? `dark enough from ${clock(edgeMs, night)} (${listed(kinds)} darkness); ` +
            `${listed(idle.map((i) => `${i.train} exposed from ${clock(i.edge.exposure.startMs, night)}`))}`
          : `${listed(idle.map((i) => `${i.train} exposed until ${clock(i.edge.exposure.endMs, night)}`))}; dark ` +
            `enough until ${clock(edgeMs, night)} (${listed(kinds)} darkness)`,
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
          ? `Be ready at ${clock(edgeMs, night)}: have the cameras cold ten minutes before, point and focus in ` +
            'the last twilight.'
          : `Let the sequence run to ${clock(edgeMs, night)}, or give it a target for the morning; let mount and ` +
            'roof close by themselves only if you trust them to.',
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

/** The darkness that a filter needs. */
function kindFor(filter: string | undefined): DarknessKind {
  return filter !== undefined && isNarrowband(filter) ? 'nautical' : 'astronomical';
}

/** The darkness that a light's filter needs, within the night's window; `null` where it does not get that dark. */
function darknessFor({ filter }: JudgedFrame, { sky: { almanac, window } }: NightFacts): Interval | null {
  const kind = kindFor(filter);
  if (almanac === null || almanac.window.asked === kind) return window;
  const { duskMs, dawnMs } = almanac.twilight[kind];
  return duskMs === null || dawnMs === null ? null : intersect(interval(duskMs, Math.max(duskMs, dawnMs)), window);
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
