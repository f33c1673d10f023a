/**
 * The night re-run: a discrete-event model of the trains on one mount, calibrated with the night's own durations,
 * validated against what the night really kept, then used to predict the results of other rules.
 */
import { sum, type Replay, type ReplayResult, type WhatIf } from '../model/index.js';
import { bestParts, settingsOf } from './best.js';
import { calibrate, type Calibrated } from './calibrate/index.js';
import type { ReplayedNight } from './calibrate/lengths.js';
import { compareWith, type Comparison } from './compare.js';
import type { Course } from './course.js';
import { inOrder } from './draws.js';
import { judge } from './judge.js';
import { boundsOf } from './limits.js';
import { formatSetting, parseSetting, type Setting } from './settings.js';
import { simulate } from './simulate.js';
import type { Question } from './question.js';
import { questionsOf } from './what-ifs.js';

/** Errors up to these fractions count as high and medium confidence. */
const HIGH_ERROR = 0.02;
const MEDIUM_ERROR = 0.05;
/** A best combination with less gain is not mentioned, ms. */
const WORTH_MS = 60_000;

/**
 * Replays a night: its own rules first, then the what-ifs.
 *
 * @param night needs frames, activities, dithers, totals and curves, and the stars where they were measured
 */
export function replayNight(night: ReplayedNight): ReplayResult {
  const calibrated = calibrate(night);
  if ('missing' in calibrated) return calibrated;
  const { course } = calibrated;
  const exact = judge(course, simulate(course, course.rules, inOrder), inOrder);
  const keptOf = (id: string): number =>
    sum(night.accounts.totals.filter(({ train }) => train === id).map(({ ms }) => ms.kept));
  const actualKeptMs = Object.fromEntries(course.trains.map(({ id }) => [id, keptOf(id)]));
  const share = (replayed: number, actual: number): number | null => (actual > 0 ? (replayed - actual) / actual : null);
  const errorShares = Object.fromEntries(
    Object.entries(exact.trains).map(([id, { keptMs }]) => [id, share(keptMs, keptOf(id))]),
  );
  const comparison = compareWith(course);
  const answers = new Map(questionsOf(course).map((q) => [q, answer(course, q, comparison)]));
  return {
    actualKeptMs,
    exact,
    errorShare: share(exact.keptMs, sum(Object.values(actualKeptMs))),
    errorShares,
    ...trust(night, calibrated, errorShares),
    dither: course.rules.ditherEvery === null ? null : { train: course.rules.lead, frames: course.rules.ditherEvery },
    rules: calibrated.rules,
    baseline: comparison.baseline,
    runs: comparison.runs,
    whatIfs: [...answers.values()],
    best: bestOf(course, answers, comparison),
  };
}

/**
 * Replays a night under custom rules.
 *
 * @param texts `key=value`, as in `REPLAY_SETTINGS`
 * @returns the answer, or what is wrong with the settings or the night
 */
export function replayWith(
  night: ReplayedNight,
  texts: readonly string[],
): WhatIf | { readonly problems: readonly string[] } | { readonly missing: string } {
  const calibrated = calibrate(night);
  if ('missing' in calibrated) return calibrated;
  const { course } = calibrated;
  const parsed = texts.map((text) =>
    parseSetting(
      text,
      course.trains.map((t) => t.id),
    ),
  );
  const problems = [
    ...parsed.filter((p): p is string => typeof p === 'string'),
    ...parsed.flatMap((p) => (typeof p === 'string' ? [] : unknownFilter(course, p))),
  ];
  if (problems.length > 0) return { problems };
  const settings = parsed.filter((p): p is Setting => typeof p !== 'string');
  return answer(
    course,
    { id: 'own', group: 'own', title: settings.map(formatSetting).join(', '), short: 'own', settings },
    compareWith(course),
  );
}

/** A filter that the train took nothing through on this night. */
function unknownFilter({ trains }: Course, setting: Setting): string[] {
  if (setting.key !== 'exposure' || setting.filter === undefined) return [];
  const filters = [...new Set(trains.find((t) => t.id === setting.train)?.blocks.flatMap((b) => b.filter ?? []))];
  return filters.includes(setting.filter)
    ? []
    : [
        `"${formatSetting(setting)}": ${setting.train} took nothing through ${setting.filter}; it used ` +
          `${filters.join(', ')}`,
      ];
}

function answer(course: Course, question: Question, comparison: Comparison): WhatIf {
  const { settings, apart: _apart, ...said } = question;
  const measured = comparison.measure(settings);
  const bounds = boundsOf(course, settings, measured.outcome.places, comparison.baseline.places);
  return { ...said, settings: settings.map(formatSetting), ...measured, ...bounds };
}

function bestOf(course: Course, answers: ReadonlyMap<Question, WhatIf>, comparison: Comparison): WhatIf | null {
  const parts = bestParts(course, answers, comparison);
  if (parts.length === 0) return null;
  const notes = parts.flatMap((p) => (p.note === undefined ? [] : [p.note]));
  const best = answer(
    course,
    {
      id: 'best',
      group: 'best',
      short: 'best together',
      title: parts.map((p, i) => titleAmong(parts, p, i === 0)).join('; '),
      settings: settingsOf(parts),
      ...(notes.length > 0 ? { note: notes.join(' ') } : {}),
      ...(parts.some((p) => p.handsOn) ? { handsOn: true } : {}),
    },
    comparison,
  );
  return best.gain.meanMs >= WORTH_MS ? best : null;
}

/** The name of one of several parts: frames between dithers are those of the leading train, if there is one. */
function titleAmong(parts: readonly Question[], part: Question, isFirst: boolean): string {
  const title = isFirst ? part.title : inSentence(part.title);
  const lead = parts.flatMap(({ settings }) => settings).find((s) => s.key === 'dither-lead');
  const counts = part.settings.some((s) => s.key === 'dither-every');
  return lead !== undefined && counts ? `${title} of ${lead.train}` : title;
}

/** A title inside a sentence: train names keep their letters, the initial capital is lowered. */
function inSentence(title: string): string {
  return /^[A-Z][a-z]/.test(title) ? `${title[0]?.toLowerCase() ?? ''}${title.slice(1)}` : title;
}

/** How reliable the replay is, and what limits it. */
function trust(
  night: ReplayedNight,
  { course, rules }: Calibrated,
  errorShares: Replay['errorShares'],
): Pick<Replay, 'confidence' | 'doubts'> {
  const errors = Object.values(errorShares).flatMap((e) => (e === null ? [] : [Math.abs(e)]));
  const worst = Math.max(0, ...errors);
  const doubts = [
    ...(errors.length === 0 ? ['nothing was kept on this night, so the replay cannot be checked against it'] : []),
    ...(worst > HIGH_ERROR
      ? [`the replay of the night’s own rules is off by ${(worst * 100).toFixed(1)} % on one train`]
      : []),
    ...(night.timeline.headersOnly
      ? ['there is no event log: durations and dithers are inferred from the gaps between frames']
      : []),
    ...(!night.timeline.headersOnly && rules.some((r) => r.name === 'dither' && r.certainty === 'inferred')
      ? ['the frames between two dithers vary: the count is the one most often found']
      : []),
    ...course.assumed,
  ];
  const confidence = errors.length === 0 || worst > MEDIUM_ERROR ? 'low' : doubts.length > 0 ? 'medium' : 'high';
  return { confidence, doubts };
}
