/** Cloud, wind and other causes of holds: a cost, though unavoidable. */
import {
  CAUTION,
  clip,
  counted,
  coveredMs,
  duration,
  durationMs,
  groupBy,
  interval,
  lightsOf,
  listed,
  percent,
  sum,
  union,
  type JudgedFrame,
  type LedgerSegment,
  type NightFacts,
} from '../model/index.js';
import { fluxOf } from './dimmed-frames.js';
import type { FindingModule } from './finding.js';
import { clock, firstOf, fromTo } from './wording.js';

/** Calibration frames are taken in the dark when nothing else is possible. */
const CALIBRATION = /^(?:calibration|dark|flat|bias) frames$/;

/** Reasons that apply to every train under the same sky. */
const FOR_THE_SKY = /cloud|overcast|rain|fog|mist|haze|sky/i;

/** Reasons for which holding was right, whatever it cost. */
const FOR_SAFETY = /wind|gust|storm|lightning|dew|humid|snow|weather|roof|dome|safe|daylight|twilight|dawn/i;
/** A mount that waits to turn over; where it then does, the flip counts the wait. */
export const FOR_THE_FLIP = /meridian|\bflip\b|pier side/i;
const FOR_THE_TARGET = /\blow\b|altitude|horizon|\brise|obstruct/i;

/** What to do about a hold, and whether anything may be won. */
function counselOn(why: string): { readonly advice: string; readonly isRight: boolean } {
  if (FOR_THE_SKY.test(why) || FOR_SAFETY.test(why))
    return {
      advice:
        `Nothing to change: holding was right. If ${overSooner(why)} earlier than the hold ended, shorten its ` +
        'waiting time.',
      isRight: true,
    };
  if (FOR_THE_FLIP.test(why))
    return {
      advice:
        'Let the mount track past the meridian as far as its maker allows and flip as soon as it can, or take ' +
        'another target meanwhile.',
      isRight: false,
    };
  if (FOR_THE_TARGET.test(why))
    return { advice: 'Give the plan another target for this time, one that is high enough.', isRight: false };
  return {
    advice:
      'Holding is right for weather and safety. The log does not say whether it was here: check what it waited ' +
      'for, and whether that came before the hold ended.',
    isRight: false,
  };
}

/** When a hold for this reason was no longer needed. */
function overSooner(why: string): string {
  if (/wind|gust|storm/i.test(why)) return 'the wind dropped';
  return FOR_THE_SKY.test(why) || /dew|humid/i.test(why) ? 'the sky cleared' : 'it was safe again';
}

/** This many frames with this fraction of their best light show a clear sky. Common practice, no source. */
const CLEAR_FRAMES = 3;
const CLEAR_LIGHT = 0.85;

/** Excluding trains that exposed through most of a hold: it was another's, and theirs are the pauses between frames. */
function withoutExposing(held: readonly Held[], night: NightFacts): readonly Held[] {
  const spans = union(held.map(({ segment }) => segment.span));
  const exposing = [...groupBy(held, ({ train }) => train)].flatMap(([train, own]) => {
    const exposures = lightsOf(night, train).map(({ exposure }) => exposure);
    const exposedMs = sum(exposures.map((exposure) => coveredMs(clip(spans, exposure))));
    return exposedMs > sum(own.map(({ segment }) => durationMs(segment.span))) ? [train] : [];
  });
  return exposing.length === 0 ? held : held.filter(({ train }) => !exposing.includes(train));
}

/** The last frames that other trains took while some were held for the sky, if all of these show it clear. */
function clearMeanwhile(why: string, held: readonly Held[], night: NightFacts): JudgedFrame[] {
  if (!FOR_THE_SKY.test(why)) return [];
  const trains = new Set(held.map(({ train }) => train));
  const spans = union(held.map(({ segment }) => segment.span));
  const others = night.accounts.lights.filter(
    ({ train, exposure }) => !trains.has(train) && coveredMs(clip(spans, exposure)) === durationMs(exposure),
  );
  const isClear = (frame: JudgedFrame): boolean => {
    const flux = fluxOf(frame, night);
    return frame.verdict === 'kept' && flux !== null && flux >= CLEAR_LIGHT;
  };
  // Clear frames before the cloud came are no evidence.
  const clear = others.slice(others.findLastIndex((frame) => !isClear(frame)) + 1);
  return clear.length < CLEAR_FRAMES ? [] : clear;
}

interface Held {
  readonly train: string;
  readonly segment: LedgerSegment;
}

export const hold: FindingModule<{ readonly minimumMinutes: number }> = {
  id: 'hold',
  title: 'Holds',
  needs: ['lights'],
  defaults: { minimumMinutes: 5 },
  find(night, { minimumMinutes }) {
    const isFlipped = night.timeline.activities.some(({ kind }) => kind === 'flip');
    const isElsewhere = (label: string): boolean => CALIBRATION.test(label) || (isFlipped && FOR_THE_FLIP.test(label));
    const held = night.accounts.ledgers.flatMap(({ train, segments }) =>
      segments.flatMap((segment): Held[] =>
        segment.account === 'hold' && !(segment.label !== undefined && isElsewhere(segment.label))
          ? [{ train, segment }]
          : [],
      ),
    );
    return [...groupBy(held, ({ segment }) => segment.label ?? 'no reason given')].flatMap(([why, all]) => {
      const own = withoutExposing(all, night);
      const spans = union(own.map((h) => h.segment.span));
      const wallMs = sum(spans.map(durationMs));
      if (wallMs < minimumMinutes * 60_000) return [];
      const trains = [...new Set(own.map((h) => h.train))];
      const clear = clearMeanwhile(why, own, night);
      const counsel = counselOn(why);
      const [first, last] = [clear[0], clear.at(-1)];
      const others = listed([...new Set(clear.map(({ train }) => train))]);
      return [
        {
          title:
            `${duration(wallMs)} on hold: ${why} ` +
            `(${trains.length > 1 && trains.length === night.gathered.trains.length ? 'all trains' : listed(trains)})`,
          costMs: sum(own.map((h) => durationMs(h.segment.span))),
          evidence: [
            ...firstOf(spans.map((s) => `${fromTo(s, night)}: ${duration(durationMs(s))}`)),
            ...(first && last
              ? [
                  `${others} kept ${counted(clear.length, 'frame')} from ` +
                    `${fromTo(interval(first.exposure.startMs, last.exposure.endMs), night)}, ` +
                    `with ${percent(CLEAR_LIGHT)} of the best light or more`,
                ]
              : []),
          ],
          advice: first
            ? `By ${others}’s stars, the sky was clear from ${clock(first.exposure.startMs, night)} on: find out ` +
              `what held ${listed(trains)}, and let one sensor decide for all trains.`
            : counsel.advice,
          caution: CAUTION,
          // A held train would have kept what the other kept.
          ...(first
            ? { winMs: trains.length * coveredMs(clear.map(({ exposure }) => exposure)) }
            : counsel.isRight
              ? { winMs: 0 }
              : {}),
          confidence: first || !counsel.isRight ? ('medium' as const) : ('high' as const),
          links: [{ text: 'Ledger', anchor: 'ledger' }],
          minutes: own.map((h) => ({
            train: h.train,
            span: interval(h.segment.span.startMs, h.segment.span.endMs),
          })),
        },
      ];
    });
  },
};
