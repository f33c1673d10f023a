/** What the train that held a dither was doing while another was ready for it, from its own account. */
import {
  ACCOUNT_TABLE,
  clip,
  duration,
  durationMs,
  groupBy,
  sum,
  union,
  type Account,
  type Interval,
  type NightFacts,
} from '../model/index.js';
import { fromTo } from './wording.js';

/** Anything that takes a smaller fraction of the waits did not hold the train. */
const MOST_SHARE = 0.5;

/** What a train did during another's waits, in words, and whether it was justified regardless of the dithers. */
export interface Holding {
  /** `wren was on hold (roof closed) for 14 min of the longest waits (23:10 to 23:24)`. */
  readonly what: string;
  readonly isHold: boolean;
  /** What to do about it. */
  readonly advice: string;
}

/** The main component of the waits; `null` without one. */
export function holdingOf(holder: string, waits: readonly Interval[], night: NightFacts): Holding | null {
  const spans = union(waits);
  const allMs = sum(spans.map(durationMs));
  const segments = night.accounts.ledgers.find(({ train }) => train === holder)?.segments ?? [];
  const parts = segments.flatMap(({ account, label, span }) => {
    const own = clip(spans, span);
    const isOpen = ACCOUNT_TABLE[account].open;
    return own.length === 0 ? [] : [{ account, words: words(account, isOpen ? undefined : label), spans: own }];
  });
  const [most] = [...groupBy(parts, (part) => part.words).values()]
    .map((own) => ({
      account: own[0]?.account ?? 'unexplained',
      words: own[0]?.words,
      ms: sum(own.flatMap((part) => part.spans.map(durationMs))),
      spans: own.flatMap((part) => part.spans),
    }))
    .sort((a, b) => b.ms - a.ms);
  if (most?.words === undefined || most.ms < MOST_SHARE * allMs) return null;
  const longest = union(most.spans).reduce((a, b) => (durationMs(b) > durationMs(a) ? b : a));
  const isHold = most.account === 'hold';
  return {
    what:
      `${holder} ${most.words} for ${duration(most.ms)} of the longest waits ` +
      `(${most.spans.length > 1 ? 'longest from ' : ''}${fromTo(longest, night)})`,
    isHold,
    advice: isHold
      ? 'no dither setting changes that.'
      : most.account === 'unexplained'
        ? 'no log says why: check what its program did at that time.'
        : 'find out why that came late there.',
  };
}

/** `was on hold (roof closed)`. */
function words(account: Account, label: string | undefined): string {
  const reason = label === undefined ? '' : ` (${label})`;
  if (ACCOUNT_TABLE[account].open) return 'went on exposing';
  if (account === 'unexplained') return 'was idle';
  if (account === 'dither-wait' || account === 'partner-wait') return `was waiting itself${reason}`;
  if (account === 'readout') return 'was reading out its frames';
  if (account === 'hold') return `was ${ACCOUNT_TABLE.hold.label}${reason}`;
  return `was busy with ${ACCOUNT_TABLE[account].label}${reason}`;
}
