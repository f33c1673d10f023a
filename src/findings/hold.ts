/**
 * Cloud, wind and whatever else held the night: a cost, though nothing can be done about it.
 */
import {
  CAUTION,
  duration,
  durationMs,
  groupBy,
  interval,
  listed,
  sum,
  union,
  type LedgerSegment,
} from '../model/index.js';
import type { FindingModule } from './finding.js';
import { firstOf, fromTo } from './wording.js';

/** Calibration frames are taken in the dark while nothing else can be. */
const CALIBRATION = /^(?:calibration|dark|flat|bias) frames$/;

/** When a hold for this reason was no longer needed. */
function overSooner(why: string): string {
  if (/wind|gust|storm/i.test(why)) return 'the wind dropped';
  return /cloud|overcast|rain|fog|mist|haze|dew|humid|sky/i.test(why) ? 'the sky cleared' : 'it was safe again';
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
    const held = night.accounts.ledgers.flatMap(({ train, segments }) =>
      segments.flatMap((segment): Held[] =>
        segment.account === 'hold' && !(segment.label !== undefined && CALIBRATION.test(segment.label))
          ? [{ train, segment }]
          : [],
      ),
    );
    return [...groupBy(held, ({ segment }) => segment.label ?? 'no reason given')].flatMap(([why, own]) => {
      const spans = union(own.map((h) => h.segment.span));
      const wallMs = sum(spans.map(durationMs));
      if (wallMs < minimumMinutes * 60_000) return [];
      const trains = [...new Set(own.map((h) => h.train))];
      return [
        {
          title:
            `${duration(wallMs)} on hold: ${why} ` +
            `(${trains.length > 1 && trains.length === night.gathered.trains.length ? 'all trains' : listed(trains)})`,
          costMs: sum(own.map((h) => durationMs(h.segment.span))),
          evidence: firstOf(spans.map((s) => `${fromTo(s, night)}: ${duration(durationMs(s))}`)),
          advice:
            `Nothing to change: holding was right. If ${overSooner(why)} earlier than the hold ended, shorten its ` +
            'waiting time.',
          caution: CAUTION,
          winMs: 0,
          confidence: 'high' as const,
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
