import { expect, it } from 'vitest';
import { aroundPlaces } from '../../../src/gather/dialects/draft/classify/around-places.js';
import { timelineOf } from '../../../src/gather/dialects/draft/classify/occurrences.js';
import { measuresPlace, ownEvidence } from '../../../src/gather/dialects/draft/classify/own-evidence.js';
import { statedExposures } from '../../../src/gather/dialects/draft/classify/structure.js';
import { trainsIn } from '../../../src/gather/dialects/draft/classify/trains.js';
import { motionsIn } from '../../../src/gather/dialects/draft/lexicon/motion-words.js';
import { wordEvidence } from '../../../src/gather/dialects/draft/lexicon/word-evidence.js';
import { kindsOf, rounds } from './support/kinds.js';

const targets = (unit: string, ...more: [number, string][]): ReturnType<typeof kindsOf> =>
  kindsOf(
    rounds(3, 4000, (from, i) => [
      [from, `helm: gone over`],
      [from + 2, `helm: sounding`],
      [from + 9, `helm: ${31 + i}.4 ${unit} wide of it`],
      [from + 19, `helm: ${6 + i}.2 ${unit} wide of it`],
      [from + 27, `helm: sounding good, ${1 + i} ${unit} left`],
      [from + 30, `pilot star held`],
      ...more.map(([at, text]): [number, string] => [from + at, text]),
    ]),
  );
const around = (kinds: ReturnType<typeof kindsOf>): Record<string, string> =>
  Object.fromEntries(
    [...aroundPlaces(kinds, timelineOf(kinds), new Map())].map(([{ wording }, [event]]) => [wording, event]),
  );

it('takes what stands around lines on how far off the place is for centring', () => {
  expect(around(targets('arcsec'))).toEqual({
    'helm: sounding': 'centre-begin',
    'helm: sounding good, # arcsec left': 'centre-end',
  });
});

it('takes no size of the seeing for how far off the place is', () => {
  const kinds = kindsOf(
    rounds(6, 400, (from, i) => [
      [from, `plate taken`],
      [from + 5, `seeing 1.${i} arcsec`],
      [from + 9, `plate kept`],
    ]),
  );
  expect(around(kinds)).toEqual({});
});

it('leaves alone what says of itself that it is something else', () => {
  const kinds = targets('arcsec');
  const reported = new Map(
    kinds
      .filter(({ wording }) => wording === 'helm: sounding')
      .map((kind) => [kind, new Map([['slew-end', 3] as const])]),
  );
  expect([...aroundPlaces(kinds, timelineOf(kinds), reported)].map(([{ wording }]) => wording)).toEqual([
    'helm: sounding good, # arcsec left',
  ]);
});

it('reads how far off a place is, and nothing that is switched off', () => {
  expect(motionsIn('go # off=#', 'go off').has('stop')).toBe(false);
  expect(motionsIn('off by # px', 'off by px').has('stop')).toBe(false);
  expect(motionsIn('pump off', 'pump off').has('stop')).toBe(true);
  const [kind] = kindsOf(rounds(3, 60, (from, i) => [[from, `go ${i} off=${12 + i}.5`]]));
  expect(kind === undefined ? null : measuresPlace(kind)).toBe(true);
});

it('tells a number of a task and a length from temperatures', () => {
  const own = (line: string): boolean => {
    const [kind] = kindsOf([[0, line]]);
    return kind !== undefined && ownEvidence({ kind }, [], undefined).has('cooler');
  };
  expect(own('job 004: cooling begun, 15')).toBe(false);
  expect(own('cooling took 41.5 s for 15')).toBe(false);
  // One temperature will do where the cooler is named beside it and it is below zero.
  expect(own('job 004: cooling begun, -15 degC')).toBe(true);
  expect(own('cooling: 4.5 of -15 degC')).toBe(true);
});

it('knows a wheel by the filter that is changed to', () => {
  const [kind] = kindsOf(rounds(3, 900, (from, i) => [[from, `glass: changing to ${['L', 'R', 'G'][i] ?? 'B'}`]]));
  expect(kind === undefined ? [] : [...ownEvidence({ kind }, [], undefined).keys()]).toContain('filter-begin');
});

it('takes what the guiding rests for, and what goes on, for what they are', () => {
  const likeliest = (wording: string): string | undefined =>
    [...wordEvidence(wording)].sort((a, b) => b[1] - a[1])[0]?.[0];
  expect(likeliest('guiding paused for the focus run')).toBe('guiding-rest-begin');
  expect([...wordEvidence('guiding goes on')].filter(([, value]) => value > 3)).toEqual([
    ['guiding-rest-end', expect.any(Number)],
  ]);
});

it('cools a chip, whatever the device is called', () => {
  const [kind] = kindsOf(rounds(4, 60, (from, i) => [[from, `hold  chip at ${15 - 11 * i} C, ordered -18 C`]]));
  const own = kind === undefined ? new Map() : ownEvidence({ kind }, [], undefined);
  expect([...own.keys()]).toEqual(['cooler']);
});

it('knows the trains of exposures of which some were asked for twice', () => {
  const kinds = kindsOf(
    rounds(14, 400, (from, i) => [
      [from, `> heron take 300 L`],
      ...(i % 6 === 1 ? [[from + 4, `> heron take 300 L`] as [number, string]] : []),
      [from + 150, `> wren take 300 Ha`],
      [from + 305, `< heron taken`],
      [from + 452, `< wren taken`],
    ]),
  );
  const timeline = timelineOf(kinds);
  expect(trainsIn(statedExposures(kinds, timeline), kinds, timeline)?.names).toEqual(['heron', 'wren']);
});

it('makes nothing of a roll call of the devices', () => {
  expect(wordEvidence('camera, wheel, focuser, mount answer').size).toBe(0);
  expect(wordEvidence('camera open').size).toBeGreaterThan(0);
});
