/** Darkness that a plan leaves free, in words. */
import { counted, duration, durationMs, listed, type FreeReason, type FreeStretch } from '../../model/index.js';

/** More targets than these are counted, not named. */
const MOST_NAMES = 2;

const REASONS: Readonly<Record<FreeReason, readonly [one: string, more: string]>> = {
  low: ['below its limit', 'below their limit'],
  twilight: ['not dark enough for broadband', 'not dark enough for broadband'],
  moon: ['in too much moonlight', 'in too much moonlight'],
  'moon-twilight': ['in too much moonlight or not dark enough', 'in too much moonlight or not dark enough'],
  'no-train': ['without a train for its filters', 'without a train for their filters'],
  later: ['taken later', 'taken later'],
  reached: ['needs no more', 'need no more'],
  effort: ['not worth slewing to', 'not worth slewing to'],
  'moon-effort': ['not worth slewing to under the Moon', 'not worth slewing to under the Moon'],
};

/** `M 33 below its limit, then not worth a visit; 4 targets need no more`. */
export function freeClause({ why }: FreeStretch): string {
  if (why.length === 0) return 'nothing is needed';
  return why
    .map(({ targets, reasons }) => {
      const who = targets.length > MOST_NAMES ? counted(targets.length, 'target') : listed(targets);
      return `${who} ${reasons.map((reason) => REASONS[reason][targets.length === 1 ? 0 : 1]).join(', then ')}`;
    })
    .join('; ');
}

/** `free (1.5 h): M 33 below its limit`. */
export function freeText(free: FreeStretch): string {
  return `free (${duration(durationMs(free.span))}): ${freeClause(free)}`;
}

/** Blocks and free intervals in chronological order. */
export function inOrder<B extends { readonly span: FreeStretch['span'] }>(
  blocks: readonly B[],
  free: readonly FreeStretch[],
): ({ readonly block: B } | { readonly free: FreeStretch })[] {
  return [
    ...blocks.map((block) => ({ block, atMs: block.span.startMs })),
    ...free.map((one) => ({ free: one, atMs: one.span.startMs })),
  ].sort((a, b) => a.atMs - b.atMs);
}
