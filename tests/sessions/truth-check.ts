/**
 * Compares a report's record with a simulation's own books.
 */
import { expect } from 'vitest';
import type { NightRecord } from '../../src/record/index.js';
import type { Truth } from '../support/generator/truth.js';

/** Totals, dithers, verdicts and every account but `unexplained` must be the truth; `unexplained` is what is left. */
export function expectTruth(record: NightRecord, truth: Truth): void {
  expect(record.night).toBe(truth.night);
  const byKey = <T extends { target: string; filter: string; train: string }>(rows: readonly T[]): T[] =>
    [...rows].sort((a, b) => (`${a.target}|${a.filter}|${a.train}` < `${b.target}|${b.filter}|${b.train}` ? -1 : 1));
  expect(
    byKey(record.totals).map(({ target, filter, train, frames, seconds }) => ({
      target,
      filter,
      train,
      frames,
      seconds,
    })),
  ).toEqual(byKey(truth.totals));

  const windowSeconds = (Date.parse(record.window.end) - Date.parse(record.window.start)) / 1000;
  for (const [train, accounts] of Object.entries(truth.ledger)) {
    const own = Object.fromEntries(record.ledger.filter((l) => l.train === train).map((l) => [l.account, l.seconds]));
    let explained = 0;
    for (const [account, seconds] of Object.entries(accounts)) {
      expect(own[account], `${train} ${account}`).toBeCloseTo(seconds, 3);
      explained += seconds;
    }
    expect(own.unexplained, `${train} unexplained`).toBeCloseTo(windowSeconds - explained, 3);
  }

  expect(
    record.dithers.map(({ begin, waits, holder, moveSeconds, settleSeconds }) => ({
      begin,
      waits,
      holder,
      moveSeconds,
      settleSeconds,
    })),
  ).toEqual(truth.dithers);

  const harmed = record.frames
    .filter((f) => f.verdict !== 'kept')
    .map((f) => ({
      train: f.train,
      begin: f.begin,
      file: f.file,
      verdict: f.verdict,
      kinds: [...new Set(f.causes.map((c) => c.kind))].sort(),
      causedBy: [...new Set(f.causes.flatMap((c) => c.causedBy ?? []))].sort(),
    }));
  const order = (a: { begin: string; train: string }, b: { begin: string; train: string }) =>
    `${a.begin}${a.train}` < `${b.begin}${b.train}` ? -1 : 1;
  expect(harmed.sort(order)).toEqual([...truth.harmed].sort(order));
}
