/** A refocus after which the stars were larger than before: the harm that the frames after it suffer from. */
import {
  counted,
  duration,
  extended,
  focusRunsOf,
  itemAt,
  median,
  oncePer,
  percent,
  worseFocuses,
  type JudgedFrame,
  type NightFacts,
  type SizedExposure,
  type WorseFocus,
} from '../model/index.js';
import type { FindingDraft, FindingModule } from './finding.js';
import { asRecorded, sizedFrames } from './star-size.js';
import {
  costEvidence,
  FEW_FRAMES,
  focusMs,
  grownFrom,
  swollenCostMs,
  swollenMinutes,
  type Swollen,
} from './swollen.js';
import { clock, frameLinks } from './wording.js';

export const worseFocus: FindingModule<{ readonly growth: number }> = {
  id: 'worse-focus',
  title: 'Refocuses that made stars larger',
  needs: ['refocuses', 'sized-stars'],
  // As much as makes a refocus due: common practice, no source.
  defaults: { growth: 0.1 },
  find(night, { growth }) {
    return night.gathered.trains.flatMap(({ id }) =>
      worseOf(night, id, growth).flatMap((worse) => draftOf(id, worse, growth, night)),
    );
  },
};

/** A train's refocuses that made its stars larger, by its frames. */
export function worseOf(night: NightFacts, train: string, growth: number): readonly WorseFocus[] {
  const key = `${train} ${growth}`;
  const known = worseIn(night);
  const worse =
    known.get(key) ??
    worseFocuses(
      focusRunsOf(night, train).map(({ activity }) => activity),
      sizedFrames(night, train)
        .map(asRecorded)
        .map(({ frame, size, zenith }): SizedExposure => ({ ...frame, size, zenith })),
      growth,
    );
  known.set(key, worse);
  return worse;
}

const worseIn = oncePer((_night: NightFacts) => new Map<string, readonly WorseFocus[]>());

function draftOf(train: string, worse: WorseFocus, limit: number, night: NightFacts): FindingDraft[] {
  const { run, before, after, growth, scatter } = worse;
  const harmed = harmedBy(train, worse, limit, night);
  const lights = harmed.map(({ frame }) => frame);
  if (lights.length === 0) return [];
  const costMs = Math.round(swollenCostMs(harmed));
  const at = clock(run.span.startMs, night);
  const healed = healedBy(train, itemAt(lights, lights.length - 1), night);
  const win = winOf(train, harmed, night);
  return [
    {
      title:
        `${train}’s refocus at ${at} made its stars ${percent(growth)} larger, ` +
        `in ${counted(lights.length, 'frame')}`,
      costMs,
      frames: lights.length,
      evidence: [
        `from ${before.size.toFixed(2)} to ${after.size.toFixed(2)} px, medians of ${FEW_FRAMES} frames on either ` +
          `side; single frames scatter by ${scatter.toFixed(2)} px`,
        ...ownSizes(worse),
        healed === null
          ? 'they stayed so until the last frame'
          : `the refocus at ${clock(healed, night)} corrected it, after ${counted(lights.length, 'frame')}`,
        costEvidence(harmed),
        `recoverable: what is lost after ${counted(win.before, 'frame')} that ${win.before === 1 ? 'shows' : 'show'} ` +
          `it, less ${duration(win.spentMs)} for a refocus that corrects it`,
      ],
      advice:
        `Have each refocus of ${train} checked by the frame after it. If stars are larger than before, repeat it, or ` +
        'go back to the previous position. For this one check the stars it used, cloud and dew, its step ' +
        'size, and whether its last move takes up the focuser’s backlash.',
      winMs: win.winMs,
      confidence: 'medium',
      links: [{ text: 'Stars', anchor: 'stars' }, ...frameLinks(lights, night, 3)],
      minutes: swollenMinutes([{ swollen: harmed, startGrowth: 0 }]),
    },
  ];
}

/** The frames from the refocus on, through its filter, until the stars are small again. */
function harmedBy(train: string, { run, before }: WorseFocus, limit: number, night: NightFacts): Swollen[] {
  const later = sizedFrames(night, train)
    .map(asRecorded)
    .filter(({ frame }) => frame.exposure.startMs >= run.span.endMs - 1000);
  const [first] = later;
  const alike = later.filter((s) => s.frame.filter === first?.frame.filter && s.frame.target === first?.frame.target);
  const grown = alike.map((s) => grownFrom(before, s));
  const isSmall = (growths: readonly Swollen[]): boolean => median(growths.map((s) => s.growth)) < limit / 2;
  // One small frame does not end it.
  const end = grown.findIndex((s, i) => isSmall([s]) && isSmall(grown.slice(i, i + FEW_FRAMES)));
  return grown.slice(0, end === -1 ? grown.length : end).map((s) => extended(s, { growth: Math.max(0, s.growth) }));
}

/** What one more refocus wins, as soon as a frame shows that it is needed; one that all wait for comes at a dither. */
function winOf(
  train: string,
  harmed: readonly Swollen[],
  night: NightFacts,
): { readonly winMs: number; readonly before: number; readonly spentMs: number } {
  const shownMs = itemAt(harmed, 0).frame.exposure.endMs;
  const { ownMs, allMs } = focusMs(night, train);
  const fromMs =
    allMs > ownMs ? (night.accounts.dithers.find((d) => d.beginMs >= shownMs)?.beginMs ?? shownMs) : shownMs;
  const saved = harmed.filter(({ frame }) => frame.exposure.startMs >= fromMs);
  return {
    winMs: Math.round(Math.max(0, swollenCostMs(saved) - allMs)),
    before: harmed.length - saved.length,
    spentMs: allMs,
  };
}

/** When the refocus that followed the last harmed frame began, if one did before the next frame, ms. */
function healedBy(train: string, last: JudgedFrame, night: NightFacts): number | null {
  const next = sizedFrames(night, train).find(({ frame }) => frame.exposure.startMs >= last.exposure.endMs);
  const runs = focusRunsOf(night, train).filter(({ span }) => span.startMs >= last.exposure.endMs - 1000);
  const [run] = runs;
  return run && next && run.span.endMs <= next.frame.exposure.startMs + 1000 ? run.span.startMs : null;
}

/** What the log says of the same refocus. */
function ownSizes({ run }: WorseFocus): string[] {
  const { sizeBefore, sizeAfter, ok } = run.facts ?? {};
  return [
    ...(sizeBefore === undefined || sizeAfter === undefined
      ? []
      : [`its own sizes in the log: ${sizeBefore.toFixed(2)} before, ${sizeAfter.toFixed(2)} after`]),
    ...(ok === false ? ['its log calls it failed'] : []),
  ];
}
