/** Rules as text: the syntax of `replay --set`, and of every what-if in the report. One key, one change. */
import { median, ownValue } from '../model/index.js';
import { amount } from './amount.js';
import type { Course, ReplayRules, TrainCourse } from './course.js';
import { withoutUnseenPatience } from './unseen-patience.js';

/** One change of the night's rules. */
export type Setting =
  | { readonly key: 'dither-every'; readonly train?: string; readonly frames: number | null }
  | { readonly key: 'dither-lead'; readonly train: string }
  | { readonly key: 'dither-waits'; readonly waits: boolean }
  | { readonly key: 'patience'; readonly train: string; readonly seconds: number }
  | { readonly key: 'exposure'; readonly train: string; readonly filter?: string; readonly seconds: number }
  | { readonly key: 'start-offset'; readonly train: string; readonly minutes: number }
  | { readonly key: 'refocus'; readonly train: string; readonly how: 'needed' | 'offsets' }
  | { readonly key: 'idle'; readonly train: string; readonly how: 'none' }
  | { readonly key: 'pause'; readonly train: string; readonly seconds: number }
  | { readonly key: 'filter-row'; readonly train: string; readonly frames: number }
  | { readonly key: 'focus'; readonly how: 'own' | 'together' }
  | { readonly key: 'guiding'; readonly how: 'off-axis' | 'guide-scope' };

/**
 * Reads one `key=value`.
 *
 * @returns the setting, or a sentence that says what is wrong with it
 */
export function parseSetting(text: string, trains: readonly string[]): Setting | string {
  const match = /^\s*([a-z-]+)(?:\.([^=]+?))?\s*=\s*(.*?)\s*$/iu.exec(text);
  if (!match) return `"${text}" is not of the form key=value`;
  const [, name = '', place, value = ''] = match;
  const key = name.toLowerCase();
  const { train, filter } = trainAndFilter(key, place, trains);
  if (train !== undefined && !trains.includes(train))
    return `"${text}": there is no train ${train}; there ${trains.length === 1 ? 'is' : 'are'} ${trains.join(', ')}`;
  const wants = (what: string): string => `"${text}": ${key} wants ${what}`;
  const ofTrain = (): string => `"${text}": ${key} is set for one train: ${key}.${trains.at(-1) ?? 'TRAIN'}=…`;
  switch (key) {
    case 'dither-every': {
      if (train === undefined && /^(never|none|0)$/i.test(value)) return { key, frames: null };
      const frames = Number(value);
      return Number.isInteger(frames) && frames >= 1 && frames <= 999
        ? { key, frames, ...(train === undefined ? {} : { train }) }
        : wants('a whole number of frames from 1 to 999, or never');
    }
    case 'dither-lead':
      return value.toLowerCase() === 'slowest' || trains.includes(value)
        ? { key, train: value }
        : wants(`one of the trains ${trains.join(', ')}, or slowest`);
    case 'dither-waits':
      return /^(yes|no)$/i.test(value) ? { key, waits: value.toLowerCase() === 'yes' } : wants('yes or no');
    case 'refocus':
      if (train === undefined) return ofTrain();
      return value === 'needed' || value === 'offsets' ? { key, train, how: value } : wants('needed or offsets');
    case 'filter-row': {
      if (train === undefined) return ofTrain();
      const frames = Number(value);
      return Number.isInteger(frames) && frames >= 1 && frames <= 999
        ? { key, train, frames }
        : wants('a whole number of frames from 1 to 999');
    }
    case 'idle':
      if (train === undefined) return ofTrain();
      return value === 'none' ? { key, train, how: value } : wants('none');
    case 'patience':
    case 'pause':
    case 'exposure': {
      if (train === undefined) return ofTrain();
      const seconds = amount(value, { s: 1, m: 60 });
      const least = key === 'exposure' ? 1 : 0;
      return seconds !== null && seconds >= least && seconds <= 86_400
        ? { key, train, seconds, ...(filter === undefined ? {} : { filter }) }
        : wants('seconds, such as 300 or 5m');
    }
    case 'start-offset': {
      if (train === undefined) return ofTrain();
      const minutes = amount(value, { s: 1 / 60, m: 1 });
      return minutes !== null && Math.abs(minutes) <= 1440 ? { key, train, minutes } : wants('minutes, such as 2.5');
    }
    case 'focus':
      return value === 'own' || value === 'together' ? { key, how: value } : wants('own or together');
    case 'guiding':
      return value === 'off-axis' || value === 'guide-scope' ? { key, how: value } : wants('off-axis or guide-scope');
    default:
      return `"${text}": there is no setting ${key}`;
  }
}

/** What a setting applies to: a train, and with exposures possibly one of its filters. Names may contain dots. */
function trainAndFilter(
  key: string,
  place: string | undefined,
  trains: readonly string[],
): { readonly train?: string; readonly filter?: string } {
  if (key !== 'exposure' || place === undefined || trains.includes(place)) return { train: place };
  const train = trains.filter((id) => place.startsWith(`${id}.`)).sort((a, b) => b.length - a.length)[0];
  return train === undefined ? { train: place } : { train, filter: place.slice(train.length + 1) };
}

/** The setting in `--set` syntax. */
export function formatSetting(setting: Setting): string {
  switch (setting.key) {
    case 'dither-every':
      return `dither-every${setting.train === undefined ? '' : `.${setting.train}`}=${setting.frames ?? 'never'}`;
    case 'dither-lead':
      return `dither-lead=${setting.train}`;
    case 'dither-waits':
      return `dither-waits=${setting.waits ? 'yes' : 'no'}`;
    case 'patience':
    case 'pause':
      return `${setting.key}.${setting.train}=${setting.seconds}`;
    case 'filter-row':
      return `filter-row.${setting.train}=${setting.frames}`;
    case 'refocus':
    case 'idle':
      return `${setting.key}.${setting.train}=${setting.how}`;
    case 'exposure':
      return `exposure.${setting.train}${setting.filter === undefined ? '' : `.${setting.filter}`}=${setting.seconds}`;
    case 'start-offset':
      return `start-offset.${setting.train}=${setting.minutes}`;
    case 'focus':
    case 'guiding':
      return `${setting.key}=${setting.how}`;
  }
}

/** The night's rules with the settings applied, in their order. */
export function applySettings(course: Course, settings: readonly Setting[]): ReplayRules {
  let rules = course.rules;
  for (const setting of settings) rules = applied(course, rules, setting);
  rules = withoutUnseenPatience(course, rules, settings);
  const set = settings.flatMap((s) => (s.key === 'dither-every' && s.train !== undefined ? [s.train] : []));
  return { ...rules, ownCount: countsInStep(course, rules, set) };
}

function applied(course: Course, rules: ReplayRules, setting: Setting): ReplayRules {
  switch (setting.key) {
    case 'dither-every':
      if (setting.train === undefined || setting.train === rules.lead) return { ...rules, ditherEvery: setting.frames };
      return setting.frames === null
        ? rules
        : { ...rules, ownCount: { ...rules.ownCount, [setting.train]: setting.frames } };
    case 'dither-lead': {
      const lead = setting.train.toLowerCase() === 'slowest' ? slowestTrain(course, rules) : setting.train;
      if (lead === rules.lead || rules.ditherEvery === null) return { ...rules, lead };
      const ratio = periodMs(course, rules, rules.lead) / periodMs(course, rules, lead);
      // Followers continue exposing until the new lead is nearly ready, each as patient as the most patient one was.
      const patience = Math.max(0, ...Object.values(rules.patienceMs));
      const patienceMs = Object.fromEntries(course.trains.filter((t) => t.id !== lead).map((t) => [t.id, patience]));
      return {
        ...rules,
        lead,
        awaited: [...new Set([lead, ...rules.awaited])],
        ownCount: {},
        patienceMs,
        ditherEvery: Math.max(1, Math.round(rules.ditherEvery * ratio)),
      };
    }
    case 'dither-waits':
      return { ...rules, awaited: setting.waits ? course.trains.map((t) => t.id) : [rules.lead] };
    case 'patience': {
      const { [setting.train]: _counted, ...ownCount } = rules.ownCount;
      return { ...rules, ownCount, patienceMs: { ...rules.patienceMs, [setting.train]: setting.seconds * 1000 } };
    }
    case 'exposure': {
      const ms = Math.round(setting.seconds * 1000);
      if (setting.filter === undefined) return { ...rules, exposureMs: { ...rules.exposureMs, [setting.train]: ms } };
      const ofTrain = { ...ownValue(rules.filterExposureMs, setting.train), [setting.filter]: ms };
      return { ...rules, filterExposureMs: { ...rules.filterExposureMs, [setting.train]: ofTrain } };
    }
    case 'start-offset': {
      const pilot = course.trains[0];
      return pilot
        ? {
            ...rules,
            startMs: { ...rules.startMs, [setting.train]: pilot.startMs + Math.round(setting.minutes * 60_000) },
          }
        : rules;
    }
    case 'pause':
      return { ...rules, mostPauseMs: { ...rules.mostPauseMs, [setting.train]: setting.seconds * 1000 } };
    case 'refocus':
      return { ...rules, refocus: { ...rules.refocus, [setting.train]: setting.how } };
    case 'idle':
      return { ...rules, neverIdle: [...(rules.neverIdle ?? []), setting.train] };
    case 'filter-row':
      return { ...rules, filterRows: { ...rules.filterRows, [setting.train]: setting.frames } };
    case 'focus':
      return { ...rules, focus: setting.how };
    case 'guiding':
      return { ...rules, guiding: setting.how };
  }
}

/**
 * Trains that count their own frames stay in step with the lead when anything changes their cadence, as their imager
 * would set them; explicit counts stay.
 */
function countsInStep(course: Course, rules: ReplayRules, set: readonly string[]): Readonly<Record<string, number>> {
  const { ditherEvery, lead, ownCount } = rules;
  if (ditherEvery === null) return ownCount;
  const spanMs = ditherEvery * periodMs(course, rules, lead);
  const isSpanChanged =
    ditherEvery !== course.rules.ditherEvery ||
    lead !== course.rules.lead ||
    periodMs(course, rules, lead) !== periodMs(course, course.rules, lead);
  // Nobody sets the count of a train anew because another companion's subs changed.
  const isChanged = (train: string): boolean =>
    isSpanChanged || periodMs(course, rules, train) !== periodMs(course, course.rules, train);
  return Object.fromEntries(
    Object.entries(ownCount)
      .filter(([train]) => train !== lead)
      .map(([train, count]) => [
        train,
        set.includes(train) || !isChanged(train)
          ? count
          : Math.max(1, Math.round(spanMs / periodMs(course, rules, train))),
      ]),
  );
}

/** Exposure and turnaround of a train under the rules, ms; its usual exposure where it has several. */
export function periodMs(course: Course, rules: ReplayRules, train: string): number {
  const own = course.trains.find((t) => t.id === train);
  return own ? usualMsUnder(own, rules) + own.turnarounds.typicalMs : NaN;
}

/** A train's usual exposure under the rules: where single filters are set, that of the middle frame. */
function usualMsUnder({ id, blocks, usualMs }: TrainCourse, { exposureMs, filterExposureMs }: ReplayRules): number {
  const ofFilters = ownValue(filterExposureMs, id);
  const ofTrain = ownValue(exposureMs, id);
  if (ofFilters === undefined) return ofTrain ?? usualMs;
  const lengths = blocks.flatMap(({ filter, frames, exposureMs: own }): number[] =>
    Array<number>(frames).fill((filter === undefined ? undefined : ownValue(ofFilters, filter)) ?? ofTrain ?? own),
  );
  return Math.round(median(lengths));
}

/** The train with the longest period; the lead if several are equally slow. */
export function slowestTrain(course: Course, rules: ReplayRules): string {
  return course.trains.reduce(
    (slowest, t) => (periodMs(course, rules, t.id) > periodMs(course, rules, slowest) + 1 ? t.id : slowest),
    rules.lead,
  );
}
