/**
 * Two reports of one night compared: what a wrong clock changed.
 */
import type { NightRecord } from '../../src/record/index.js';

/**
 * What in the report differs by more than a second from the report without an offset.
 *
 * @param isAbsolute whether the report claims that its times are right, and not only alike on all trains
 */
export function differences(found: NightRecord, truth: NightRecord, isAbsolute: boolean): string[] {
  const out: string[] = [];
  const order = (r: NightRecord) =>
    [...r.frames].sort((a, b) => (a.train + a.begin < b.train + b.begin ? -1 : a.train === b.train ? 1 : 1));
  const verdicts = (r: NightRecord) =>
    order(r).map((f) => `${f.train} ${f.filter} ${f.seconds} ${f.verdict} ${f.causes.map((c) => c.kind).join('+')}`);
  const [v, w] = [verdicts(found), verdicts(truth)];
  if (v.length !== w.length) out.push(`${v.length} frames, not ${w.length}`);
  v.forEach((line, i) => {
    if (line !== w[i]) out.push(`frame ${line}, not ${w[i]}`);
  });
  if (found.dithers.length !== truth.dithers.length)
    out.push(`${found.dithers.length} dithers, not ${truth.dithers.length}`);
  found.dithers.forEach(({ waits, holder }, i) => {
    const other = truth.dithers[i];
    for (const [train, wait] of Object.entries(waits)) {
      const expected = other?.waits[train];
      if (Math.abs((wait ?? Infinity) - (expected ?? Infinity)) > 1)
        out.push(`wait ${i} of ${train}: ${wait}, not ${expected}`);
    }
    // Two trains ready within the clocks' uncertainty hold each other.
    const gap = Object.values(other?.waits ?? {}).sort((a, b) => (a ?? 0) - (b ?? 0));
    if (holder !== other?.holder && (gap[1] ?? 0) - (gap[0] ?? 0) > 1)
      out.push(`holder ${i}: ${holder}, not ${other?.holder}`);
  });
  // Where it is said that all times may be off alike, so are the window's ends, and what they cut off.
  const isWindowOff = !isAbsolute && out.some((line) => line.includes('twilight'));
  for (const { train, account, seconds } of isWindowOff ? [] : found.ledger) {
    if (!isAbsolute && account === 'unexplained') continue;
    const expected = truth.ledger.find((l) => l.train === train && l.account === account)?.seconds ?? 0;
    const cycles = Math.max(1, truth.dithers.length);
    if (Math.abs(seconds - expected) > cycles) out.push(`${train} ${account}: ${seconds} s, not ${expected} s`);
  }
  return out;
}
