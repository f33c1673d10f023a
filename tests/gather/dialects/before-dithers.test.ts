import { expect, it } from 'vitest';
import { beforeDithers } from '../../../src/gather/dialects/draft/classify/before-dithers.js';
import { timelineOf } from '../../../src/gather/dialects/draft/classify/occurrences.js';
import { sidesIn } from '../../../src/gather/dialects/draft/classify/sides.js';
import { trainsIn } from '../../../src/gather/dialects/draft/classify/trains.js';
import { wordEvidence } from '../../../src/gather/dialects/draft/lexicon/word-evidence.js';
import type { EventName } from '../../../src/model/index.js';
import { kindsOf, rounds } from './support/kinds.js';

/** Two trains that are ready, and dithered for, after every second exposure. */
const night = kindsOf(
  rounds(10, 1400, (from) => [
    [from, `[heron] plate 1: 600 s, L`],
    [from + 1, `[wren] plate 1: 600 s, Ha`],
    [from + 610, `[heron] plate 2: 600 s, L`],
    [from + 612, `[wren] plate 2: 600 s, Ha`],
    [from + 1212, `[heron] pencils down`],
    [from + 1215, `[wren] pencils down`],
    [from + 1216, `nudge by 4.5 px`],
  ]),
);
const own = new Map(
  night.map((kind) => {
    const event: EventName | null = kind.wording.includes('plate')
      ? 'exposure-begin'
      : kind.wording.startsWith('nudge')
        ? 'dither-begin'
        : null;
    return [kind, new Map(event === null ? [] : [[event, 4] as const])] as const;
  }),
);

it('identifies trains from exposures with only begin and length logged', () => {
  expect(trainsIn([], night, timelineOf(night))?.names).toEqual(['heron', 'wren']);
});

it('takes what each train says before a dither, and before it exposes again, for its wait', () => {
  const trains = trainsIn([], night, timelineOf(night));
  if (trains === null) throw new Error('no trains');
  const found = beforeDithers(own, timelineOf(night), trains);
  expect([...found.keys()].map(({ wording }) => wording)).toEqual(['[heron] pencils down', '[wren] pencils down']);
  // Where no dither follows, it is something else.
  const undithered = new Map([...own].filter(([kind]) => !kind.wording.startsWith('nudge')));
  expect(beforeDithers(undithered, timelineOf(night), trains).size).toBe(0);
});

it('takes a mount that goes to no target and changes its side for a flip', () => {
  const kinds = kindsOf([
    [0, 'tube carried over to the far side'],
    [80, 'tube is there'],
    [9000, 'tube put to bed'],
  ]);
  const [over, there, bed] = kinds;
  if (over === undefined || there === undefined || bed === undefined) throw new Error('three kinds');
  const events = new Map<(typeof kinds)[number], EventName>([
    [over, 'slew-begin'],
    [there, 'slew-end'],
    [bed, 'slew-end'],
  ]);
  const said = new Map([[over, new Map<EventName, number>([['flip-begin', 4]])]]);
  expect([...sidesIn(new Set(kinds), events, said)]).toEqual([
    [over, 'flip-begin'],
    [there, 'flip-end'],
  ]);
  expect(sidesIn(new Set(kinds), events, new Map()).size).toBe(0);
});

it('does not take a wait that is over for one', () => {
  const [best] = [...wordEvidence('heron dithers now, I was idle # s')].sort((a, b) => b[1] - a[1]);
  expect(best?.[0]).toBe('dither-begin');
});
