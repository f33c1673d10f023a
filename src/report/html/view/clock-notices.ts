import { clockStatements, decimal, listed, type ClockNote, type ClockStatement } from '../../../model/index.js';

/**
 * What the first screen must say of clocks: those whose offset is not known, since verdicts rest on it, and those
 * brought together without anything to say which is right, since every time on the page rests on that.
 */
export function clockNotices(clocks: readonly ClockNote[]): string[] {
  const statements = clockStatements(clocks);
  const unknown = statements.filter((c) => !c.isKnown);
  const oneSided = statements.filter((c) => c.corrected && !c.isAbsolute);
  return [
    ...unknown.map(
      (c) =>
        `The clock is not known: how far ${subject(c)} ahead of ${c.against} cannot be told${alternatives(c)}. Its times stand as written, and what fell on whose open shutter is uncertain; clockOffset: in the rig file settles it.`,
    ),
    ...(oneSided.length === 0
      ? []
      : [
          `The clocks of the computers differ: ${listed(oneSided.map((c) => `${subject(c)} ${decimal(Math.abs(c.aheadMs) / 1000, 1)} s ${c.aheadMs < 0 ? 'behind' : 'ahead of'} ${c.against}`))}. They were brought together, but which one is right is not known: times on this page may all be off by that.`,
        ]),
  ];
}

/** The subject inside a sentence. */
function subject({ subject: words }: ClockStatement): string {
  return `${words.charAt(0).toLowerCase()}${words.slice(1)}`;
}

function alternatives({ aheadMs, second }: ClockNote): string {
  if (!second) return ', for nothing was written that both saw';
  return `: ${decimal(aheadMs / 1000, 1)} s fits best, ${decimal(second.aheadMs / 1000, 1)} s is not excluded`;
}
