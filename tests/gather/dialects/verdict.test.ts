import { describe, expect, it } from 'vitest';
import { verdictOn } from '../../../src/gather/dialects/draft/audit/verdict.js';
import { writeDraft } from '../../../src/gather/dialects/draft/write-draft.js';
import type { DraftedEvent } from '../../../src/gather/dialects/draft/audit/drafted-night.js';
import { draftVerdict } from '../../../src/gather/dialects/index.js';
import type { LogEvent } from '../../../src/model/index.js';
import { clock, inOrder, SHOTS } from './support/night-of-tables.js';
import { drafted } from './support/drafted.js';

/** Events in the order of their lines: seconds, name, train, stated seconds. */
function night(events: readonly (readonly [number, LogEvent['event'], string?, number?])[]) {
  const told = events.map(
    ([atS, event, train, seconds], i): DraftedEvent => ({
      rule: 0,
      event: {
        event,
        atMs: atS * 1000,
        ...(train === undefined ? {} : { train }),
        ...(seconds === undefined ? {} : { seconds }),
        source: { file: 'night.log', line: i + 1 },
      } as LogEvent,
    }),
  );
  return { rules: [], drafted: told.sort((a, b) => a.event.atMs - b.event.atMs) };
}

const EXPOSURES = Array.from({ length: 30 }, (_, i) => i * 310);

describe('the verdict on a draft as a whole', () => {
  it('has nothing against exposures, dithers, and a few that are cut short', () => {
    const good = night(
      EXPOSURES.flatMap((atS, i) => [
        [atS, 'exposure-begin', 'heron', 300] as const,
        [atS + (i % 10 === 9 ? 40 : 300), i % 10 === 9 ? 'exposure-abort' : 'exposure-end', 'heron'] as const,
        [atS + 301, 'dither-begin'] as const,
        [atS + 304, 'dither-end'] as const,
      ]),
    );
    expect(verdictOn(good)).toEqual([]);
  });

  it('has nothing against a log that has one side of each pair only, or two trains without names', () => {
    expect(verdictOn(night(EXPOSURES.map((atS) => [atS, 'exposure-end', 'heron'] as const)))).toEqual([]);
    const nameless = EXPOSURES.flatMap((atS) => [
      [atS, 'exposure-begin'] as const,
      [atS + 2, 'exposure-begin'] as const,
      [atS + 300, 'exposure-end'] as const,
      [atS + 302, 'exposure-end'] as const,
    ]);
    expect(verdictOn(night(nameless))).toEqual([]);
  });

  it('knows that two trains without names do not open a third shutter', () => {
    const crowded = EXPOSURES.flatMap((atS) => [
      ...[0, 2, 4].map((s) => [atS + s, 'exposure-begin'] as const),
      ...[300, 302, 304].map((s) => [atS + s, 'exposure-end'] as const),
    ]);
    expect(verdictOn(night(crowded))[0]).toMatch(/^\d+ of its 180 events contradict others/);
  });

  it('says how many events contradict others, and what most of them are', () => {
    const overlapping = EXPOSURES.flatMap((atS) => [
      [atS, 'exposure-begin', 'heron'] as const,
      [atS + 100, 'exposure-begin', 'heron'] as const,
      [atS + 300, 'exposure-end', 'heron'] as const,
    ]);
    expect(verdictOn(night(overlapping))).toEqual([
      '30 of its 90 events contradict others, most as exposures of one train that overlap',
    ]);
  });

  it('says how many exposures end long before their length is over', () => {
    const early = EXPOSURES.flatMap((atS) => [
      [atS, 'exposure-begin', 'heron', 300] as const,
      [atS + 20, 'exposure-end', 'heron'] as const,
    ]);
    expect(verdictOn(night(early))).toEqual(['30 of 30 exposures end before half of their stated length']);
  });

  it('says that exposures have neither ends nor lengths', () => {
    expect(verdictOn(night(EXPOSURES.map((atS) => [atS, 'exposure-begin', 'heron'] as const)))).toEqual([
      '30 of its 30 exposures have neither an end nor a length',
    ]);
    expect(verdictOn(night(EXPOSURES.map((atS) => [atS, 'exposure-begin', 'heron', 300] as const)))).toEqual([]);
  });

  it('is in the first lines of a draft and in the last of the command, or in neither', () => {
    const rows = inOrder(
      SHOTS.slice(0, 24).map(({ atS, train, seconds }) => [atS, `${clock(atS)} ${train} exposing ${seconds} s`]),
    );
    const { yaml, report } = drafted(['night of 2026-01-16', ...rows]);
    expect(report.signsOfWrong).toBeUndefined();
    expect(yaml).not.toContain('PROBABLY WRONG');
    expect(draftVerdict(report)).toEqual([]);
    const bad = { ...report, signsOfWrong: ['30 of 30 exposures end before half of their stated length'] };
    expect(writeDraft(bad).split('\n').slice(1, 3)).toEqual([
      '# THIS DRAFT IS PROBABLY WRONG AS A WHOLE:',
      '#   30 of 30 exposures end before half of their stated length.',
    ]);
    expect(draftVerdict(bad)[0]).toBe(
      'THIS DRAFT IS PROBABLY WRONG AS A WHOLE: 30 of 30 exposures end before half of their stated length',
    );
  });
});
