/**
 * A refocus that made the stars much smaller: it was overdue.
 */
import {
  counted,
  duration,
  groupBy,
  median,
  ownValue,
  percent,
  type NightFacts,
  focusRunsOf,
  type FocusRun,
  lightsOf,
} from '../model/index.js';
import type { FindingModule } from './finding.js';
import { asRecorded, sizedFrames } from './star-size.js';
import {
  FEW_FRAMES,
  startGrowth,
  baseOf,
  costEvidence,
  grownFrom,
  refocusWin,
  swollenCostMs,
  swollenMinutes,
  winEvidence,
  type Swollen,
  type SwollenStretch,
} from './swollen.js';
import { clock, countedInWords, firstOf } from './wording.js';
import { worseOf } from './worse-focus.js';

interface Overdue extends SwollenStretch {
  readonly run: FocusRun;
  /** Star size before and after the run, px. */
  readonly sizes: { readonly before: number; readonly after: number };
  /** How much larger the stars were before it, as a fraction of their size after it. */
  readonly excess: number;
  /**
   * Kept frames since the previous refocus, of the same filter, with stars larger by the limit than in the frames after
   * it: the log's own sizes are on another scale.
   */
  readonly swollen: readonly Swollen[];
  /** Whether it was the first of the night, and the stars were larger by the limit from the first frame on. */
  readonly isFromStart: boolean;
}

/**
 * By the sizes of the runs alone, without confirmation from frames, one is overdue from this multiple of the limit on:
 * refocusing at the limit happens at the next dither.
 */
const LATE = 1.5;

export const overdueFocus: FindingModule<{ readonly growth: number }> = {
  id: 'overdue-focus',
  title: 'Overdue refocuses',
  needs: ['refocuses', 'focus-sizes'],
  // Refocus when stars have grown by a tenth: common practice, no source.
  defaults: { growth: 0.1 },
  find(night, { growth }) {
    const overdue = night.gathered.trains
      .flatMap(({ id }) => overdueRuns(night, id, growth))
      .filter(({ swollen, excess }) => swollen.length > 0 || excess >= LATE * growth);
    return [...groupBy(overdue, (o) => o.run.train)].map(([train, own]) => {
      const swollen = own.flatMap((o) => o.swollen);
      const costMs = Math.round(swollenCostMs(swollen));
      const worst = Math.max(...own.map((o) => 1 - 1 / (1 + o.excess)));
      const frames = swollen.length;
      const [first] = own;
      const win = refocusWin(night, train, own, growth);
      return {
        title:
          own.length === 1 && first !== undefined
            ? `${train}’s refocus at ${clock(first.run.span.startMs, night)} was overdue: stars ` +
              `${percent(worst)} smaller after it`
            : `${countedInWords(own.length)} refocuses on ${train} were overdue: stars up to ` +
              `${percent(worst)} smaller after them`,
        costMs,
        ...(costMs === 0 ? { price: `stars ${percent(worst)} larger` } : {}),
        ...(frames > 0 ? { frames } : {}),
        evidence: [
          ...firstOf(own.map((o) => describe(o, night))),
          ...firstOf(own.flatMap((o) => inPixels(o, night))),
          ...(costMs > 0
            ? [costEvidence(swollen), winEvidence(win, growth), ...withoutAirMass(swollen)]
            : ['no star sizes are known before it through the filter that followed: what it cost is not known']),
        ],
        advice:
          (own.some((o) => o.isFromStart)
            ? `Focus ${train} before its first sub. Its stars were that large from the start; after that, refocus `
            : `Refocus ${train} `) +
          `when its stars have grown by ${percent(growth)}. Expect that sooner after a filter change ` +
          'without a known offset, and while the evening cools.',
        ...(costMs > 0 ? { winMs: win.winMs, minutes: swollenMinutes(own) } : {}),
        // Whether an earlier refocus would have lasted is unknown.
        confidence: 'medium' as const,
        links: [{ text: 'Stars', anchor: 'stars' }],
      };
    });
  },
};

/** Without the sky, as in the shared edition: figures then come from the original site's analysis. */
function withoutAirMass(swollen: readonly Swollen[]): string[] {
  return swollen.some(({ frame }) => frame.sky === null)
    ? ['no air mass is known here: growth from a sinking target is counted as well']
    : [];
}

function overdueRuns(night: NightFacts, train: string, growth: number): Overdue[] {
  const runs = focusRunsOf(night, train);
  return runs.flatMap((run, i): Overdue[] => {
    const { sizeBefore, sizeAfter, afterFilterChange, span } = run;
    // One after a filter change compensates for a missing offset, which is another matter.
    if (afterFilterChange || sizeBefore === null || sizeAfter === null || sizeAfter <= 0) return [];
    if (1 - sizeAfter / sizeBefore < growth) return [];
    // What the refocus before it spoilt, this one put right.
    const previous = runs[i - 1];
    if (previous && worseOf(night, train, growth).some((worse) => worse.run === previous.activity)) return [];
    const sinceMs = previous?.span.endMs ?? -Infinity;
    const untilMs = runs[i + 1]?.span.startMs ?? Infinity;
    const sized = sizedFrames(night, train).map(asRecorded);
    const after = sized.filter(
      ({ frame: { exposure } }) => exposure.startMs >= span.endMs - 1000 && exposure.startMs < untilMs,
    );
    const alike = after.filter((s) => s.frame.filter === after[0]?.frame.filter && s.by === after[0]?.by);
    // One before the first frame was not late.
    if (!lightsOf(night, train).some((f) => f.exposure.startMs >= sinceMs && f.exposure.endMs <= span.startMs + 1000))
      return [];
    const base = baseOf(alike);
    const before = sized
      .filter(({ frame: { exposure } }) => exposure.startMs >= sinceMs && exposure.endMs <= span.startMs + 1000)
      .filter((s) => s.frame.filter === alike[0]?.frame.filter && s.by === alike[0]?.by);
    const grown = before.map((s) => grownFrom(base, s));
    // Sizes of the run itself, from a defocused first step, are not evidence if the frames before it were as small.
    if (grown.length >= FEW_FRAMES && median(grown.slice(-FEW_FRAMES).map((s) => s.growth)) < growth / 2) return [];
    const grownAtStart = before.length > 0 ? startGrowth(base, baseOf(before)) : 0;
    return [
      {
        run,
        isFromStart: i === 0 && grownAtStart >= growth && before[0]?.frame.id === lightsOf(night, train)[0]?.id,
        sizes: { before: sizeBefore, after: sizeAfter },
        excess: sizeBefore / sizeAfter - 1,
        swollen: grown.filter((s) => s.growth >= growth),
        startGrowth: grownAtStart,
      },
    ];
  });
}

/** The star sizes from the pixels of adjacent frames, which use another scale than the log's own sizes. */
function inPixels({ run: { train, span } }: Overdue, night: NightFacts): string[] {
  const lights = lightsOf(night, train);
  const before = lights.filter(({ exposure }) => exposure.endMs <= span.startMs).slice(-FEW_FRAMES);
  const after = lights.filter(({ exposure }) => exposure.startMs >= span.endMs).slice(0, FEW_FRAMES);
  const [from, to] = [before, after].map((frames) =>
    frames.flatMap(({ id }) => ownValue(night.stars?.frames, id)?.fwhm ?? []),
  );
  return from === undefined || to === undefined || from.length === 0 || to.length === 0
    ? []
    : [`in the pixels of the frames beside it: FWHM from ${median(from).toFixed(2)} to ${median(to).toFixed(2)} px`];
}

function describe({ run, sizes, swollen }: Overdue, night: NightFacts): string {
  const { span } = run;
  const cost =
    swollen.length > 0
      ? `; ${counted(swollen.length, 'frame')} before it with larger stars, ${duration(swollenCostMs(swollen))}`
      : '';
  return `${clock(span.startMs, night)}: from ${sizes.before.toFixed(2)} to ${sizes.after.toFixed(2)} px${cost}`;
}
