import { describe, expect, it } from 'vitest';
import { timelineOf } from '../../../src/gather/dialects/draft/classify/occurrences.js';
import { statedExposures } from '../../../src/gather/dialects/draft/classify/structure.js';
import { trainsIn } from '../../../src/gather/dialects/draft/classify/trains.js';
import { twinNames, twinsOf, wordsIn } from '../../../src/gather/dialects/draft/classify/twins.js';
import { kindLike, kindsOf, rounds, type Line } from './support/kinds.js';

/** What two trains log whose exposures are open together. */
const twoTrains = rounds(12, 320, (from, i): Line[] => [
  [from + 1, `zof velka ${i} 300 s Ha`],
  [from + 301, `zof minka ${i}`],
  [from + 303, `zof gluba zof_${i}.fits`],
  [from + 11, `rin velka ${i} 300 s L`],
  [from + 311, `rin minka ${i}`],
  [from + 313, `rin gluba rin_${i}.fits`],
]);

describe('kinds of line that come twice', () => {
  it('name two trains by the word that tells them apart', () => {
    const kinds = kindsOf(twoTrains);
    const timeline = timelineOf(kinds);
    const names = twinNames(kinds, timeline, []);
    expect(names === null ? [] : [...names]).toEqual(['rin', 'zof']);
    const trains = trainsIn(statedExposures(kinds, timeline), kinds, timeline);
    expect(trains?.nameOf(kindLike(kinds, 'zof minka'))).toBe('zof');
    expect(twinsOf(kinds, ['rin', 'zof'])).toHaveLength(3);
  });

  it('are no trains when the one is the end of the other', () => {
    const kinds = kindsOf(
      rounds(12, 330, (from, i) => [
        [from, `shutter gro 300 s Ha`],
        [from + 300, `shutter fel 300 s Ha`],
        [from + 301, `mount gro ${i}.5 px`],
        [from + 303, `mount fel ${i}.5 px`],
        [from + 304, 'calm gro'],
        [from + 312, 'calm fel'],
      ]),
    );
    const timeline = timelineOf(kinds);
    expect(twinNames(kinds, timeline, statedExposures(kinds, timeline))).toBeNull();
  });

  it('take a Chinese character for a name', () => {
    expect(wordsIn('甲镜 heron-2')).toEqual(['甲', '镜', 'heron-2']);
  });
});
