import { describe, expect, it } from 'vitest';
import { statedDurations } from '../../../src/gather/dialects/draft/classify/durations.js';
import { timelineOf } from '../../../src/gather/dialects/draft/classify/occurrences.js';
import { statedExposures } from '../../../src/gather/dialects/draft/classify/structure.js';
import { trainsIn } from '../../../src/gather/dialects/draft/classify/trains.js';
import { drafted } from './support/drafted.js';
import { kindsOf, rounds } from './support/kinds.js';

/** The trains of a log of two cameras that expose side by side, each line begun by the name of its camera. */
function namesIn(one: string, other: string): readonly string[] | undefined {
  const kinds = kindsOf(
    rounds(12, 340, (from, i) => [
      [from, `${one} opens for 300 s`],
      [from + 2, `${other} opens for 300 s`],
      [from + 300, `${one} shuts`],
      [from + 302, `${other} shuts`],
      [from + 306, `quiet ${i}`],
    ]),
  );
  const timeline = timelineOf(kinds);
  return trainsIn(statedExposures(kinds, timeline), kinds, timeline)?.names;
}

describe('two trains in one log', () => {
  it('are found by names that say what they are: cameras with a letter', () => {
    expect([...(namesIn('cam-a', 'cam-b') ?? [])].sort()).toEqual(['cam-a', 'cam-b']);
  });

  it('are found by a name that begins a sentence here and stands within one there', () => {
    const kinds = kindsOf(
      rounds(12, 340, (from, i) => [
        [from, i % 3 === 0 ? 'Heron opens for 300 s' : 'opening heron for 300 s'],
        [from + 2, i % 3 === 0 ? 'Wren opens for 300 s' : 'opening wren for 300 s'],
        [from + 300, 'shuts'],
        [from + 302, 'shuts'],
      ]),
    );
    const timeline = timelineOf(kinds);
    const trains = trainsIn(statedExposures(kinds, timeline), kinds, timeline);
    expect([...(trains?.names ?? [])].sort()).toEqual(['heron', 'wren']);
    expect(kinds.map((kind) => trains?.nameOf(kind) ?? '').sort()).toEqual(['', 'heron', 'heron', 'wren', 'wren']);
  });

  it('are found from exposures logged only at their end, with their duration', () => {
    const clock = (second: number): string => new Date(Date.UTC(2026, 9, 14, 20) + second * 1000).toISOString();
    const rows = rounds(24, 330, (from, i) => [
      [from + 300, `heron,exposed,Ha,300,heron-${i}.fits`],
      [from + 301, `wren,exposed,L,298,wren-${i}.fits`],
      [from + 318, 'mount,dithered,,6,'],
    ]);
    const lines = [...rows].map(([second, text]) => `${clock(second)},${text}`);
    const { yaml } = drafted(['done,who,what,filter,took_s,file', ...lines], 'hut.csv');
    expect(yaml).toMatch(/'who': '\^heron\$'[^#]*event: exposure-end[^#]*train: 'heron'\n *lasted: took_s/);
    expect(yaml).toMatch(/'who': '\^wren\$'[^#]*event: exposure-end[^#]*train: 'wren'\n *lasted: took_s/);
  });

  it('are found where only one of them changes its filter', () => {
    const kinds = kindsOf(
      rounds(24, 330, (from, i) => [
        [from + 300, `<west> plate closed after 300 s by ${i % 2 === 0 ? 'Ha' : 'OIII'}, object M ${10 + (i % 3)}`],
        [from + 301, `<east> plate closed after 298 s by L, object M ${10 + (i % 3)}`],
        [from + 318, 'moved a little'],
      ]),
    );
    const timeline = timelineOf(kinds);
    const durations = statedDurations(kinds, timeline);
    const trains = trainsIn(statedExposures(kinds, timeline), kinds, timeline, durations);
    expect([...(trains?.names ?? [])].sort()).toEqual(['east', 'west']);
  });

  it('are found beside other lines that state a length at their beginning', () => {
    const kinds = kindsOf(
      rounds(12, 360, (from) => [
        [from, 'heron exposure begins: 300 s'],
        [from + 2, 'wren exposure begins: 300 s'],
        [from + 300, 'heron exposure ends'],
        [from + 302, 'wren exposure ends'],
        [from + 310, 'guider settling for 20 s'],
        [from + 330, 'guider settled'],
      ]),
    );
    const timeline = timelineOf(kinds);
    const stated = statedExposures(kinds, timeline);
    expect(stated).toHaveLength(3);
    expect([...(trainsIn(stated, kinds, timeline)?.names ?? [])].sort()).toEqual(['heron', 'wren']);
  });

  it('are found by names of their own', () => {
    expect([...(namesIn('heron', 'wren') ?? [])].sort()).toEqual(['heron', 'wren']);
  });
});
