/** Verdicts against truth, as a table. */
import { takeAccount } from '../../../src/account/index.js';
import { DEFAULT_RULES, interval, type FrameStars, type JudgedFrame, type Verdict } from '../../../src/model/index.js';
import { type DrawnLight, type DrawnNight, TRAINS } from './drawn-night.js';
import { type Truth, truthsOf } from './truth.js';

export const VERDICTS: readonly Verdict[] = ['kept', 'doubtful', 'lost'];
const TRUTHS: readonly Truth[] = ['kept', 'doubtful', 'lost', 'grey', 'tail'];

/** A frame judged, with its truth. */
export interface Compared {
  readonly light: DrawnLight;
  readonly judged: JudgedFrame;
  readonly stars: FrameStars | null;
  readonly truth: Truth;
}

/** Judges a drawn night by the default rules. @param stars by frame id; `null` where the pixels were not measured */
export function compare(
  { lights, activities, guiding }: DrawnNight,
  stars: Readonly<Record<string, FrameStars>> | null,
): Compared[] {
  const frames = lights.map(({ frame }) => frame).sort((a, b) => a.exposure.startMs - b.exposure.startMs);
  const endMs = Math.max(...frames.map(({ exposure }) => exposure.endMs));
  const accounts = takeAccount({
    trains: TRAINS,
    rules: DEFAULT_RULES,
    darkness: 'nautical',
    guiding,
    window: interval(frames[0]?.exposure.startMs ?? endMs, endMs),
    frames,
    activities,
    stars: stars === null ? null : { frames: stars },
    positions: {},
    clocks: [],
  });
  const judged = new Map(accounts.lights.map((light) => [light.id, light]));
  const truths = truthsOf(lights);
  return lights.flatMap((light, i): Compared[] => {
    const own = judged.get(light.frame.id);
    const truth = truths[i];
    return own === undefined || truth === undefined
      ? []
      : [{ light, judged: own, stars: stars?.[light.frame.id] ?? null, truth }];
  });
}

/** How often verdict and truth fall together. */
export interface Confusion {
  readonly counts: Readonly<Record<Truth, Readonly<Record<Verdict, number>>>>;
  /** Lost by verdict among what is truly kept or doubtful; 0 to 1. */
  readonly falseLost: number;
  /** Not lost by verdict among what is truly lost; and kept. */
  readonly missed: number;
  readonly missedKept: number;
}

export function confusionOf(compared: readonly Compared[]): Confusion {
  const row = (): Record<Verdict, number> => ({ kept: 0, doubtful: 0, lost: 0 });
  const counts = { kept: row(), doubtful: row(), lost: row(), grey: row(), tail: row() };
  for (const { truth, judged } of compared) counts[truth][judged.verdict]++;
  const all = (truth: Truth): number => VERDICTS.reduce((sum, verdict) => sum + counts[truth][verdict], 0);
  return {
    counts,
    falseLost: (counts.kept.lost + counts.doubtful.lost) / (all('kept') + all('doubtful')),
    missed: (counts.lost.kept + counts.lost.doubtful) / all('lost'),
    missedKept: counts.lost.kept / all('lost'),
  };
}

/** As Markdown. */
export function confusionText({ counts, falseLost, missed, missedKept }: Confusion): string {
  const percent = (share: number): string => `${(100 * share).toFixed(2)} %`;
  return [
    '| drawn \\ judged | kept | doubtful | lost |',
    '| --- | ---: | ---: | ---: |',
    ...TRUTHS.map((truth) => `| ${truth} | ${VERDICTS.map((verdict) => counts[truth][verdict]).join(' | ')} |`),
    '',
    `False lost ${percent(falseLost)}; missed losses ${percent(missed)} (${percent(missedKept)} kept).`,
  ].join('\n');
}
