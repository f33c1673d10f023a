/**
 * Unused darkness at either end of the night, although it was dark enough for the filter and the target was high
 * enough.
 */
import {
  calibrationOf,
  cameraTurns,
  CAUTION,
  clip,
  coveredMs,
  darknessFor,
  darknessKindFor,
  duration,
  durationMs,
  groupBy,
  interval,
  lightsOf,
  listed,
  percent,
  subtract,
  sum,
  usableFor,
  type Interval,
  type JudgedFrame,
  type NightFacts,
} from '../model/index.js';
import { arrivedLight, DIM_SHARE } from './arrived-light.js';
import { isFinished } from './goals-reached.js';
import type { FindingDraft, FindingModule, TrainSpan } from './finding.js';
import { keptShare } from './trains.js';
import { clock, inSentence } from './wording.js';

type End = 'dusk' | 'dawn';

/** With at least this difference from darkness, a target's own limit decides, ms. */
const TARGETS_OWN_MS = 300_000;
/** Less darkness than this is not worth another target, ms. Common practice, no source. */
const ANOTHER_MS = 1_200_000;

const AFTER_HAZE = 'Look for dew, haze or cloud first; if the light comes back: ';

/** What one train left unused at one end. */
interface Idle {
  readonly train: string;
  /** Its first light, or its last. */
  readonly edge: JudgedFrame;
  /** When darkness begins or ends for its filter, UTC ms. */
  readonly darkMs: number;
  /** The earliest possible begin, or latest possible end, UTC ms. */
  readonly untilMs: number;
  readonly free: readonly Interval[];
  readonly ms: number;
  /** The fraction of light near this end; `null` if not measured. */
  readonly arrived: number | null;
}

export const unusedDarkness: FindingModule<{ readonly minimumMinutes: number; readonly setupMinutes: number }> = {
  id: 'unused-darkness',
  title: 'Darkness unused at dusk and dawn',
  needs: ['sky', 'lights', 'times-by-the-sky'],
  // Pointing, focusing and starting the guiding take about five minutes; common practice, no source.
  defaults: { minimumMinutes: 15, setupMinutes: 5 },
  find(night, { minimumMinutes, setupMinutes }) {
    // If darkness never comes, the window's ends are not the user's fault.
    if (night.sky.almanac?.window.kind === 'sun-minimum') return [];
    return (['dusk', 'dawn'] as const).flatMap((end) => unusedAt(end, night, minimumMinutes, setupMinutes));
  },
};

function unusedAt(end: End, night: NightFacts, minimumMinutes: number, setupMinutes: number): FindingDraft[] {
  const idle = idleAt(end, night).filter(({ ms }) => ms >= minimumMinutes * 60_000);
  if (idle.length === 0) return [];
  const setupMs = end === 'dusk' ? setupMinutes * 60_000 : 0;
  // An hour of darkness is not an hour kept: readouts, dithers and lost frames take their share.
  const keeping = idle.filter((i) => keptShare(night, i.train) >= 0.005);
  const winMs = sum(keeping.map((i) => Math.max(0, i.ms - setupMs) * keptShare(night, i.train)));
  const knowsTarget = idle.every((i) => night.sky.curves.some((c) => c.target === i.edge.target));
  const targets = [...new Set(idle.map((i) => i.edge.target ?? 'the target'))];
  const isTargets = idle.every((i) => Math.abs(i.untilMs - i.darkMs) >= TARGETS_OWN_MS);
  const limiting = isTargets ? targets : [];
  // Stopping when all goals are reached is no omission: another target is optional.
  if (end === 'dawn' && idle.every((i) => isFinished(i.edge.target, night))) return [finished(idle, targets, night)];
  const dim = idle.filter((i) => i.arrived !== null && i.arrived < DIM_SHARE);
  return [
    {
      title: titleOf(end, Math.min(...idle.map((i) => i.ms)), limiting),
      costMs: sum(idle.map((i) => i.ms)),
      evidence: [
        whenLine(end, idle, night),
        listed(idle.map((i) => `${duration(i.ms)} on ${i.train}`)) +
          (knowsTarget ? `, counted while ${listed(targets)} ${were(targets)} above the limit, without holds` : ''),
        dim.length > 0
          ? `${end === 'dusk' ? 'in the first hour' : 'in the last hour'} ` +
            `no more than ${percent(Math.max(...dim.flatMap((i) => i.arrived ?? [])))} of the light arrived on ` +
            `${listed(dim.map((i) => i.train))}: what more hours through haze, cloud or dew are worth is not known`
          : keeping.length > 0
            ? 'recoverable: what the night kept of each working hour, ' +
              listed(keeping.map((i) => `${percent(keptShare(night, i.train))} on ${i.train}`)) +
              (end === 'dusk' ? `, less ${setupMinutes} min to point, focus and start the guiding` : '')
            : 'nothing was kept on this night: what these hours are worth is not known',
      ],
      advice:
        dim.length > 0
          ? AFTER_HAZE + inSentence(adviceOf(end, idle, limiting, night))
          : adviceOf(end, idle, limiting, night),
      ...(keeping.length > 0 && dim.length === 0 ? { winMs: Math.round(winMs) } : {}),
      confidence: knowsTarget && dim.length === 0 ? 'medium' : 'low',
      links: [
        { text: 'Ledger', anchor: 'ledger' },
        { text: 'Sky', anchor: 'sky' },
      ],
      ...(end === 'dawn' ? { caution: CAUTION } : {}),
      minutes: idle.flatMap((i) => i.free.map((span): TrainSpan => ({ train: i.train, span }))),
    },
  ];
}

function finished(idle: readonly Idle[], targets: readonly string[], night: NightFacts): FindingDraft {
  const ms = Math.min(...idle.map((i) => i.ms));
  const until = clock(Math.max(...idle.map((i) => i.darkMs)), night);
  const goals = targets.length === 1 ? `The goals of ${listed(targets)}` : 'All goals';
  return {
    title: `${goals} were reached ${duration(ms)} before the end of darkness`,
    costMs: 0,
    evidence: [whenLine('dawn', idle, night)],
    advice: `Nothing to change; another target could use the darkness until ${until}.`,
    confidence: 'high',
    links: [{ text: 'Sky', anchor: 'sky' }],
    minutes: [],
  };
}

/** What each train left unused, if it became dark enough for its filter. */
function idleAt(end: End, night: NightFacts): Idle[] {
  const turns = cameraTurns(night.timeline.frames);
  return night.gathered.trains.flatMap(({ id }): Idle[] => {
    // Its camera was on another telescope then.
    if (turns.some(({ from, to }) => id === (end === 'dusk' ? to : from))) return [];
    const lights = lightsOf(night, id);
    const edge = end === 'dusk' ? lights[0] : lights.at(-1);
    const dark = edge && darknessFor(edge, night);
    const free = edge ? freeSpans(end, edge, night) : [];
    const [first] = free;
    const last = free.at(-1);
    if (!edge || !dark || !first || !last) return [];
    const [darkMs, untilMs] = end === 'dusk' ? [dark.startMs, first.startMs] : [dark.endMs, last.endMs];
    return [
      { train: id, edge, darkMs, untilMs, free, ms: coveredMs(free), arrived: arrivedLight(edge, lights, night) },
    ];
  });
}

/** `dark enough from 20:28 (nautical darkness) for wren and from 21:01 (astronomical darkness) for heron; …`. */
function whenLine(end: End, idle: readonly Idle[], night: NightFacts): string {
  const [word, exposed] = end === 'dusk' ? ['from', (i: Idle) => i.edge.exposure.startMs] : ['until', lastOf];
  const kinds = [
    ...groupBy(idle, (i) => `${word} ${clock(i.darkMs, night)} (${darknessKindFor(i.edge, night)} darkness)`),
  ];
  const dark =
    'dark enough ' +
    listed(kinds.map(([when, own]) => when + (kinds.length > 1 ? ` for ${listed(own.map((i) => i.train))}` : '')));
  const took = listed(idle.map((i) => `${i.train} exposed ${word} ${clock(exposed(i), night)}`));
  return end === 'dusk' ? `${dark}; ${took}` : `${took}; ${dark}`;
}

const were = (targets: readonly string[]): string => (targets.length === 1 ? 'was' : 'were');

const lastOf = (i: Idle): number => i.edge.exposure.endMs;

/** @param targets targets whose limit decides; none if darkness does */
function adviceOf(end: End, idle: readonly Idle[], targets: readonly string[], night: NightFacts): string {
  const isDark = targets.length === 0;
  const times = [...groupBy(idle, (i) => clock(i.untilMs, night))];
  const [only] = times;
  const isOne = times.length === 1 && only !== undefined;
  const are = targets.length === 1 ? 'is' : 'are';
  const when = isDark ? '' : `, when ${listed(targets)} ${are} high enough`;
  if (end === 'dusk')
    return (
      (isOne
        ? `Be ready at ${only[0]}${when}: `
        : `Be ready ${listed(times.map(([time, own]) => `with ${listed(own.map((i) => i.train))} at ${time}`))}: `) +
      'have the cameras cold ten minutes before, point and focus ' +
      (isDark ? 'in the last twilight.' : 'before that.')
    );
  const run =
    'Let the sequence run ' +
    (isOne ? `to ${only[0]}` : listed(times.map(([time, own]) => `to ${time} on ${listed(own.map((i) => i.train))}`)));
  const restMs = Math.min(...idle.map((i) => i.darkMs - i.untilMs));
  const darkMs = Math.max(...idle.map((i) => i.darkMs));
  return (
    run +
    (isDark
      ? ', or give it a target for the morning; let '
      : `, when ${listed(targets)} ${targets.length === 1 ? 'sinks to its' : 'sink to their'} limit` +
        (restMs < ANOTHER_MS
          ? '. Let '
          : `; another target could use the darkness until ${clock(darkMs, night)}. Let `)) +
    'mount and roof shut down by themselves only if you trust them to.'
  );
}

function titleOf(end: End, ms: number, targets: readonly string[]): string {
  const isDark = targets.length === 0;
  if (end === 'dusk')
    return (
      `First exposure ${duration(ms)} after ` + `${isDark ? 'dark' : `${listed(targets)} ${were(targets)} high enough`}`
    );
  const limit = `${targets.length === 1 ? 'its' : 'their'} limit`;
  const before = isDark ? 'the end of darkness' : `${listed(targets)} sank to ${limit}`;
  return `Last exposure ended ${duration(ms)} before ${before}`;
}

/** The part of the end in which the target of the nearest light was up and no hold kept the roof closed. */
function freeSpans(end: End, edge: JudgedFrame, night: NightFacts): Interval[] {
  const { window } = night.sky;
  const span =
    end === 'dusk'
      ? interval(window.startMs, Math.max(window.startMs, edge.exposure.startMs))
      : interval(Math.min(window.endMs, edge.exposure.endMs), window.endMs);
  if (durationMs(span) === 0) return [];
  const holds = night.timeline.activities
    .filter((a) => a.kind === 'hold' && (a.train === undefined || a.train === edge.train))
    .map((a) => a.span);
  const calibration = calibrationOf(night)
    .filter((f) => f.train === edge.train)
    .map((f) => f.exposure);
  return subtract(clip(usableFor(edge, night), span), [...holds, ...calibration]);
}
