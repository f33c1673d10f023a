import { describe, expect, it } from 'vitest';
import { statedDurations } from '../../../src/gather/dialects/draft/classify/durations.js';
import { timelineOf } from '../../../src/gather/dialects/draft/classify/occurrences.js';
import { ownEvidence } from '../../../src/gather/dialects/draft/classify/own-evidence.js';
import { stray } from '../../../src/gather/dialects/draft/classify/stray.js';
import { actualOf } from '../../../src/gather/dialects/draft/group-names.js';
import { withoutBullets } from '../../../src/gather/dialects/draft/kinds/bullets.js';
import { impliedBy } from '../../../src/gather/dialects/draft/two-at-once.js';
import { wordEvidence } from '../../../src/gather/dialects/draft/lexicon/word-evidence.js';
import type { EventName } from '../../../src/model/index.js';
import { kindLike, kindsOf, rounds } from './support/kinds.js';

// What a night looks like whose log tells each thing once, when it is over (common practice, no source).
const over = kindsOf(
  rounds(12, 340, (from, i) => [
    [from, `hop, took ${(2 + (i % 3) * 0.3).toFixed(1)}`],
    [from + 14, `calm, took ${(13.6 - (i % 3) * 0.4).toFixed(1)}`],
    [from + 20, `wheel to Ha, took ${(5.3 + (i % 3) * 0.2).toFixed(1)}`],
    [from + 322, `plate 300 s, open ${(300 + (i % 4) * 0.1).toFixed(1)}`],
  ]),
);

describe('a log that tells each thing once, when it is over', () => {
  it('is identified by what its numbers are called: all of them look back', () => {
    const stated = statedDurations(over, timelineOf(over));
    expect(stated.get(kindLike(over, 'calm'))).toBe('past');
    expect(stated.get(kindLike(over, 'hop'))).toBe('past');
  });

  it('states beside the length that was asked for what it came to', () => {
    const plate = kindLike(over, 'plate');
    expect(actualOf(plate)?.values[0]).toBe('300.0');
    expect(actualOf(kindLike(over, 'calm'))).toBeNull();
  });
});

describe('a kind of a line or two', () => {
  const night = kindsOf([
    [0, 'wheel holds seven colours'],
    ...rounds(8, 320, (from) => [
      [from + 10, 'open 300 s'],
      [from + 311, 'shut'],
    ]),
    [3000, 'turns to bed'],
  ]);
  const events = new Map<ReturnType<typeof kindLike>, EventName>([
    [kindLike(night, 'open'), 'exposure-begin'],
    [kindLike(night, 'shut'), 'exposure-end'],
  ]);
  const found = (beginning: string, event: EventName): boolean =>
    stray(new Map([...events, [kindLike(night, beginning), event]]), timelineOf(night), () => -1).has(
      kindLike(night, beginning),
    );

  it('is not what would happen for the sake of exposures after the last of them', () => {
    expect(found('turns', 'slew-begin')).toBe(true);
    expect(found('turns', 'guiding-end')).toBe(false);
  });

  it('ends nothing that has not begun', () => {
    expect(found('wheel', 'exposure-end')).toBe(true);
    expect(found('wheel', 'cooler')).toBe(false);
  });
});

describe('a line that tells two things', () => {
  const [closed] = kindsOf([
    [0, 'pose 1 fermée, enregistrée : A_1.fits'],
    [300, 'pose 2 fermée, enregistrée : A_2.fits'],
    [600, 'pose 3 fermée, enregistrée : A_3.fits'],
  ]);
  const [moved] = kindsOf([
    [0, 'décalage fait, on attend le calme'],
    [300, 'décalage fait, on attend le calme'],
  ]);

  it('makes both, unless another line tells the second', () => {
    if (closed === undefined || moved === undefined) throw new Error('no kinds');
    expect(impliedBy(closed, 'exposure-end', [])).toBe('frame-saved');
    expect(impliedBy(moved, 'dither-end', [])).toBe('settling-begin');
    const waits = { ...moved, atMs: moved.atMs.map((atMs) => atMs + 1000) };
    expect(impliedBy(moved, 'dither-end', [[waits, 'settling-begin']])).toBeNull();
  });
});

describe('what moves by pixels', () => {
  it('is no mount on its way to a target', () => {
    const moves = (text: string): string[] => {
      const [kind] = kindsOf([0, 300, 600].map((at, i) => [at, text.replace('#', `${i + 1}.5`)]));
      return kind === undefined ? [] : [...ownEvidence({ kind }, [], undefined).keys()];
    };
    expect(moves('montagem em movimento: # px')).not.toContain('slew-begin');
    expect(moves('montagem em movimento: # px')).toContain('dither-begin');
    expect(moves('montagem em movimento: # graus')).toContain('slew-begin');
  });
});

describe('an exclamation mark in front of lines', () => {
  it('says that something fails only where few lines have it', () => {
    const marked = kindsOf(
      rounds(6, 100, (from) => [
        [from, '! nudge'],
        [from + 1, '! calm'],
        [from + 9, 'chip 4'],
      ]),
    );
    expect(withoutBullets(marked).map(({ wording }) => wording)).not.toContain('! calm');
    const rare = kindsOf([
      ...rounds(9, 100, (from): [number, string][] => [
        [from, 'nudge'],
        [from + 1, 'calm'],
      ]),
      [950, '! jam'],
    ]);
    expect(withoutBullets(rare).map(({ wording }) => wording)).toContain('! jam');
  });
});

describe('a line that tells what followed at once', () => {
  const night = kindsOf(
    rounds(9, 340, (from, i) => [
      [from, 'open 300 s'],
      [from + 302, `frame ${i} done and saved as a${i}.fits`],
      [from + 304, `reading -> waiting for the dither (saved b${i}.fits)`],
    ]),
  );

  it('has closed the frame that it says was saved', () => {
    expect(impliedBy(kindLike(night, 'frame'), 'frame-saved', [])).toBe('exposure-end');
  });

  it('has saved a frame where it says that the train is ready', () => {
    expect(impliedBy(kindLike(night, 'reading'), 'dither-ready', [])).toBe('frame-saved');
  });

  it('is about what it says first, where what it says then would be its other side', () => {
    const evidence = wordEvidence('dither finished, go');
    expect(evidence.get('dither-end') ?? 0).toBeGreaterThan(2 + (evidence.get('dither-begin') ?? 0));
  });
});
