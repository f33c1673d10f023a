/**
 * A night to be shared: what a mentor needs, and nothing that reveals where it was. Every field of its parts is copied,
 * coarsened or left out by its class; accounts and findings are recomputed from the remainder, so that no sentence can
 * reveal more.
 */
import { takeAccount } from './account/index.js';
import { findAll, mostRecoverableFirst, SKY_FINDINGS } from './findings/index.js';
import {
  hull,
  increment,
  interval,
  isReplayed,
  LEFT_OUT,
  type Accounts,
  type Cause,
  type Finding,
  type Frame,
  type InputFile,
  type Interval,
  type JudgedFrame,
  type Night,
  type NightFindings,
  type NightPictures,
  type ReplayResult,
} from './model/index.js';
import { KEPT, type Redaction } from './record/index.js';
import { replayNight } from './replay/index.js';

const WITHOUT_SKY =
  'the sky is left out of the shared edition: frames in twilight or at low altitude count like others, and the ' +
  'full report may rank rules differently';

/** Costs that darkness and sky decide are reported to the half hour, ms. */
const COST_STEP_MS = 30 * 60_000;

const SKY_CAUSES = {
  low: 'the target was below the site’s limit',
  twilight: 'the Sun was not yet, or no longer, far enough below the horizon',
} as const;

/**
 * Redacts a night. Times count from the night's first exposure, which is set to midnight of its date; the window is the
 * span of the activity; nothing of Sun, Moon and altitudes remains. Verdicts, totals and waits are the same; the replay
 * is recomputed for a night whose sky is unknown.
 */
export function shareNight(night: Night): Night {
  const how = redactionOf(night);
  const parts = KEPT.redact(night, how);
  const accounts = sharedAccounts(night, parts, how);
  const replay = sharedReplay(night);
  const facts = { ...parts, accounts, worth: null, replay };
  return {
    ...facts,
    pictures: sharedPictures(night.pictures, how),
    findings: sharedFindings(night, findAll(facts)),
  };
}

/**
 * Replayed without the sky: a longer sub that would have run into twilight reveals when twilight was. The limits are
 * those of the whole report: about the worth of frames they contain only whether longer subs were advised.
 */
function sharedReplay(night: Night): ReplayResult {
  const replay = replayNight({ ...night, sky: { ...night.sky, curves: [] } });
  const isOfSky = night.accounts.lights.some((f) => f.causes.some(({ kind }) => kind === 'low' || kind === 'twilight'));
  return isReplayed(replay) && isOfSky ? { ...replay, doubts: [...replay.doubts, WITHOUT_SKY] } : replay;
}

/** Stars reveal no location: only a frame's name is hidden. */
function sharedPictures(pictures: NightPictures | null, how: Redaction): NightPictures | null {
  return (
    pictures && {
      strips: pictures.strips.map((strip) => ({
        ...strip,
        frame: how.frame(strip.frame),
        beside: how.frame(strip.beside),
      })),
      fields: pictures.fields.map((field) => ({ ...field, frame: how.frame(field.frame) })),
    }
  );
}

function redactionOf({ date, timeline, gathered, accounts, sky }: Night): Redaction {
  const activity = hull(accounts.lights.map((f) => f.exposure)) ?? interval(sky.window.startMs, sky.window.startMs);
  const shiftMs = Date.parse(`${date}T00:00:00Z`) - activity.startMs;
  const files = fileNames([...timeline.frames, ...timeline.library], gathered.inputs);
  const ids = frameIds([...timeline.frames, ...timeline.library]);
  return {
    instant: (atMs) => Math.round(atMs + shiftMs),
    file: (path) => files.get(path) ?? 'a file',
    frame: (id) => ids.get(id) ?? 'a frame',
    window: interval(activity.startMs + shiftMs, activity.endMs + shiftMs),
  };
}

/** `heron Ha 0025`, `heron dark 0003`, `event log 2`: numbers count what comes before of the same sort. */
function fileNames(frames: readonly Frame[], inputs: readonly InputFile[]): Map<string, string> {
  const counts = new Map<string, number>();
  const names = new Map<string, string>();
  for (const { train, kind, filter, file } of frames) {
    if (file === undefined || names.has(file)) continue;
    const sort = `${train} ${kind === 'light' ? (filter ?? 'no filter') : kind}`;
    names.set(file, `${sort} ${String(increment(counts, sort)).padStart(4, '0')}`);
  }
  for (const { file, role } of inputs) {
    if (!names.has(file)) names.set(file, `${role.replaceAll('-', ' ')} ${increment(counts, role)}`);
  }
  return names;
}

function frameIds(frames: readonly Frame[]): Map<string, string> {
  const counts = new Map<string, number>();
  return new Map(
    frames.map(({ id, train }) => [id, `${train}-${String(increment(counts, train)).padStart(4, '0')}`] as const),
  );
}

/** The accounts of the remaining data, with the verdicts of the whole night. */
function sharedAccounts(
  night: Night,
  parts: Pick<Night, 'gathered' | 'timeline' | 'sky' | 'stars'>,
  how: Redaction,
): Accounts {
  const originals = new Map(night.accounts.lights.map((f) => [how.frame(f.id), f]));
  return takeAccount({ ...parts.gathered, ...parts.timeline, ...parts.sky, stars: parts.stars }, (light) => {
    const original = originals.get(light.id);
    if (!original) return light;
    return {
      ...light,
      verdict: original.verdict,
      causes: original.causes.map((cause) => sharedCause(cause, light, how)),
      cleared: original.cleared.map(({ kind, by }) => {
        const again = light.cleared.find((c) => c.kind === kind && c.by === by);
        return { kind, by, evidence: again?.evidence ?? LEFT_OUT };
      }),
    };
  });
}

/** A cause in words made from the remaining data. */
function sharedCause(cause: Cause, light: JudgedFrame, how: Redaction): Cause {
  const span: Interval = interval(how.instant(cause.span.startMs), how.instant(cause.span.endMs));
  const again = light.causes.find((c) => c.kind === cause.kind && c.span.startMs === span.startMs);
  if (again) return { ...again, verdict: cause.verdict };
  const { kind, verdict, by, overlapMs, causedBy, certainty } = cause;
  const evidence = kind === 'low' || kind === 'twilight' ? SKY_CAUSES[kind] : LEFT_OUT;
  return { kind, verdict, by, span, overlapMs, causedBy, certainty, evidence, sources: [] };
}

/** Findings on the size of the stars, which grows with the air mass: without it some would be found that are none. */
const BY_AIR_MASS: ReadonlySet<string> = new Set(['larger-stars', 'overdue-focus', 'refocus-too-seldom']);

/** The findings on the remaining data; for those that depend on the sky, the cost to the half hour. */
function sharedFindings({ findings: whole, gathered }: Night, rest: NightFindings): NightFindings {
  const subjectOf = ({ id, title }: Finding): string =>
    [id, ...gathered.trains.flatMap((train) => (title.includes(train.id) ? [train.id] : []))].join(' ');
  const found = new Set(whole.ranked.map(subjectOf));
  const coarse = whole.ranked.filter((f) => SKY_FINDINGS.has(f.id)).map(coarseFinding);
  const coarsened = new Set(coarse.map((f) => f.id));
  return {
    ranked: [
      ...rest.ranked.filter((f) => !SKY_FINDINGS.has(f.id) && (!BY_AIR_MASS.has(f.id) || found.has(subjectOf(f)))),
      ...coarse,
    ].sort(mostRecoverableFirst),
    notAssessed: rest.notAssessed.flatMap(({ id, title, missing }) => {
      if (coarsened.has(id)) return [];
      const isOfSky = SKY_FINDINGS.has(id);
      return [{ id, title, missing: isOfSky ? 'the sky, which is left out of the shared edition' : missing }];
    }),
  };
}

function coarseFinding({ id, costMs, confidence }: Finding): Finding {
  return {
    id,
    title: `${SKY_FINDINGS.get(id) ?? id} (figures to the half hour)`,
    costMs: Math.round(costMs / COST_STEP_MS) * COST_STEP_MS,
    evidence: [LEFT_OUT],
    advice: 'See the full report for the evidence: it reveals Sun, Moon and altitudes, and so the site.',
    confidence,
  };
}
