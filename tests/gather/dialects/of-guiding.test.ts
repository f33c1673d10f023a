import { expect, it } from 'vitest';
import { ofGuiding } from '../../../src/gather/dialects/draft/of-guiding.js';
import { typeOf } from '../../../src/gather/dialects/draft/kinds/values.js';
import { wordEvidence } from '../../../src/gather/dialects/draft/lexicon/word-evidence.js';
import { kindsOf } from './support/kinds.js';

it('a log of the guiding alone tells of the mount where its words say so', () => {
  const mayBe = (text: string): readonly string[] =>
    kindsOf([[0, text]]).flatMap((kind) => [...ofGuiding(kind)].filter((event) => /^(?:slew|centre|hold)/.test(event)));
  expect(mayBe('event  centrando')).toEqual(['centre-begin']);
  expect(mayBe('event  slewing to NGC 2237')).toContain('slew-begin');
  expect(mayBe('a light at the farm below')).toEqual([]);
});

it('what has a length behind it is more than the name of an object', () => {
  expect(typeOf(['M 42 filter L 180 s', 'M 42 filter L 300 s'])).toBe('text');
  expect(typeOf(['M 42', 'NGC 7000 North America'])).toBe('designation');
});

it('着手 begins and nothing more: the 着 in it arrives nowhere', () => {
  expect([...wordEvidence('ピント合わせ 着手').keys()]).toEqual(['focus-begin']);
  expect([...wordEvidence('架台 着').keys()]).toContain('slew-end');
});
