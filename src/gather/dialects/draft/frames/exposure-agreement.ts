import { groupBy } from '../../../../model/index.js';
import type { FrameTimes } from '../../check/agreement.js';
import { named, type DraftedNight } from '../audit/drafted-night.js';
import { bestFits, fitAt } from './coincidence.js';

/** Distances of a line from the beginning and the end of its frame, ms: files are saved after the latter. */
const BEGIN_MS = 8000;
const END_MS = 15_000;
/** Fractions of exposures, and of a train's frames, that agree where a draft has understood them. */
const MOST = 0.85;
/** A log of one train has hardly any exposure that begins with those of another. */
const HARDLY = 0.15;

/** How the exposures of a draft stand to the frames, whatever its zone and date. */
export interface ExposureAgreement {
  /** They are understood: nearly all of them have a frame, and nearly all frames of their trains an exposure. */
  readonly isGood: boolean;
  /** For the comparison of two drafts: 0 to 1. */
  readonly worth: number;
}

/** Compares beginnings and ends of exposures with frames under the shift that suits the former best. */
export function exposureAgreement(night: DraftedNight | null, frames: readonly FrameTimes[]): ExposureAgreement {
  const nothing = { isGood: false, worth: 0 };
  if (night === null) return nothing;
  const begins = named(night.drafted, 'exposure-begin').map(({ event }) => event.atMs);
  const ends = named(night.drafted, 'exposure-end').map(({ event }) => event.atMs);
  const starts = frames.map(({ beginMs }) => beginMs);
  const [best] = bestFits(begins, starts, BEGIN_MS);
  if (best === undefined) return nothing;
  const stops = frames.map(({ beginMs, seconds }) => beginMs + seconds * 1000).sort((a, b) => a - b);
  const ended = fitAt(ends, stops, best.shiftMs, END_MS).pairs;
  const given = Math.max(1, Math.min(begins.length, starts.length));
  const isCovered = [...groupBy(frames, ({ train }) => train ?? '')].every(([train, own]) => {
    const share =
      fitAt(
        begins,
        own.map(({ beginMs }) => beginMs),
        best.shiftMs,
        BEGIN_MS,
      ).pairs / own.length;
    return share >= MOST || share <= HARDLY || train === '';
  });
  return {
    isGood: best.pairs >= MOST * given && ended >= MOST * best.pairs && isCovered,
    worth: (best.pairs + ended) / Math.max(1, begins.length + ends.length, 2 * starts.length),
  };
}
