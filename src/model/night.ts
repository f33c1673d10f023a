import { extended, groupBy, oncePer, ownValue } from './collections.js';
import type { Accounts, JudgedFrame } from './accounts.js';
import type { NightFindings } from './finding.js';
import type { Frame } from './frame.js';
import type { GatheredNight } from './gathered.js';
import { hull, type Interval } from './interval.js';
import { fewStarsNotices, smallGroupNotices, wholeNightNotices } from './judging/index.js';
import { totalKey, type Total } from './ledger.js';
import type { NightPictures } from './pictures.js';
import type { ReplayResult } from './replay.js';
import type { NightSky } from './sky.js';
import type { NightStars } from './stars.js';
import type { Timeline } from './timeline.js';
import type { Warning } from './warning.js';
import type { FrameWorth, TotalWorth, WorthAssessment } from './worth.js';

/**
 * Everything known about one night, by stage: each part is written by one stage only. Record and report are renderings
 * of this object.
 */
export interface Night {
  /** The evening's local date, `YYYY-MM-DD`. */
  readonly date: string;
  /** Local noon to local noon. */
  readonly span: Interval;
  readonly gathered: GatheredNight;
  readonly timeline: Timeline;
  readonly sky: NightSky;
  /** `null` when no pixels were read. */
  readonly stars: NightStars | null;
  readonly accounts: Accounts;
  /** `null` when there are no pixels, or no pictures were asked for. */
  readonly pictures: NightPictures | null;
  /** `null` when the site is unknown. */
  readonly worth: WorthAssessment | null;
  /** The night under other rules, or why it could not be replayed; `null` when not requested. */
  readonly replay: ReplayResult | null;
  readonly findings: NightFindings;
}

/** A night up to its accounts: the input of the replay. */
export type AccountedNight = Pick<Night, 'gathered' | 'timeline' | 'sky' | 'stars' | 'accounts'>;

/** A night before its findings: their input. */
export type NightFacts = Omit<Night, 'findings' | 'pictures'>;

/** Everything that is not a light: darks, flats, bias, other; those from other dates last. */
export function calibrationOf({ timeline }: Pick<Night, 'timeline'>): readonly Frame[] {
  return [...timeline.frames.filter((frame) => frame.kind !== 'light'), ...timeline.library];
}

type WarnedNight = Pick<Night, 'gathered' | 'timeline' | 'sky' | 'stars'>;

/** Warnings about the input, in the order of the stages. Page, record and command line ask for them several times. */
export const warningsOf = oncePer(({ gathered, timeline, sky, stars }: WarnedNight): readonly Warning[] => [
  ...gathered.warnings,
  ...timeline.warnings,
  ...sky.warnings,
  ...(stars?.warnings ?? []),
  ...wholeNightNotices({ gathered, timeline, stars }),
  ...fewStarsNotices({ gathered, timeline, stars }),
  ...smallGroupNotices({ gathered, timeline, stars }),
]);

/** A light and its worth. */
export interface WeighedFrame extends JudgedFrame {
  readonly worth: FrameWorth;
}

/** A total and the worth of its kept frames. */
export interface WeighedTotal extends Total {
  readonly worth: TotalWorth;
}

/** The worth of a light; `undefined` when unknown. */
export function worthOfFrame({ worth }: Pick<Night, 'worth'>, { id }: Pick<Frame, 'id'>): FrameWorth | undefined {
  return ownValue(worth?.frames, id);
}

/** The worth of a total's kept frames; `undefined` when unknown. */
export function worthOfTotal({ worth }: Pick<Night, 'worth'>, total: Total): TotalWorth | undefined {
  return ownValue(worth?.totals, totalKey(total));
}

/** Lights by train. */
const lightsByTrain = oncePer((lights: readonly JudgedFrame[]) => groupBy(lights, (light) => light.train));

/** Lights of one train, sorted by start. */
export function lightsOf({ accounts }: Pick<Night, 'accounts'>, train: string): readonly JudgedFrame[] {
  return lightsByTrain(accounts.lights).get(train) ?? [];
}

/** From the first light to the last; `null` without lights. */
export const imagedSpan = oncePer((lights: readonly JudgedFrame[]) => hull(lights.map((light) => light.exposure)));

/** The lights whose worth is known, sorted by start. */
export function weighedLights({ accounts, worth }: Pick<Night, 'accounts' | 'worth'>): readonly WeighedFrame[] {
  return worth === null ? [] : weighedBy(accounts.lights)(worth);
}

/** By lights and worth, not by night: findings and report request it for nights of their own. */
const weighedBy = oncePer((lights: readonly JudgedFrame[]) =>
  oncePer((worth: WorthAssessment): readonly WeighedFrame[] =>
    lights.flatMap((frame) => {
      const own = worthOfFrame({ worth }, frame);
      return own ? [extended(frame, { worth: own })] : [];
    }),
  ),
);

/** The lights of these ids with a known worth, in the order of the ids. */
export function weighedOf(night: Pick<Night, 'accounts' | 'worth'>, ids: readonly string[]): WeighedFrame[] {
  if (ids.length === 0) return [];
  const wanted = new Set(ids);
  const byId = new Map(weighedLights(night).flatMap((frame) => (wanted.has(frame.id) ? [[frame.id, frame]] : [])));
  return ids.flatMap((id) => byId.get(id) ?? []);
}

/** The totals with a known worth. */
export function weighedTotals(night: Pick<Night, 'accounts' | 'worth'>): WeighedTotal[] {
  return night.accounts.totals.flatMap((total) => {
    const worth = worthOfTotal(night, total);
    return worth ? [{ ...total, worth }] : [];
  });
}
