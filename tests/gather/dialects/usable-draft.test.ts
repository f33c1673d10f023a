import { describe, expect, it } from 'vitest';
import type { DraftReport } from '../../../src/gather/dialects/draft/report.js';
import { usableDraft } from '../../../src/gather/dialects/draft/usable-draft.js';
import { writeDraft } from '../../../src/gather/dialects/draft/write-draft.js';
import { dialect } from './support/read.js';
import { drafted } from './support/drafted.js';

const { report } = drafted(
  Array.from({ length: 12 }, (_, i) => `2026-04-14 22:${String(10 + i)}:00 shutter opens: 300 s, L, M 51`),
);
const stamp = report.stamp ?? expect.fail('no time was found');
const [rule = expect.fail('no rule was found')] = report.rules;

describe('a draft that would be refused', () => {
  it('is what it was where nothing is wrong', () => {
    expect(usableDraft(report)).toBe(report);
  });

  it.each<[string, Partial<DraftReport>, RegExp]>([
    [
      'a form of time without its date',
      {
        stamp: { ...stamp, more: ['{hour}.{minute}.{second}', '{day}/{month} {hour}:{minute}'] },
        date: { from: 'header', when: 'Year (?<date>\\d+)', pattern: '{year}', line: 1, evening: false },
      },
      /LOOK AT THIS: where the date stands was left out/,
    ],
    [
      'a form of time that cannot be read',
      { stamp: { ...stamp, more: ['{hours}'] } },
      /LOOK AT THIS: the time pattern \{hours\} was left out/,
    ],
    [
      'a main form that cannot be read',
      { stamp: { ...stamp, pattern: '{day', more: [stamp.pattern] } },
      /the time pattern \{day was left out/,
    ],
    [
      'a rule that cannot be matched',
      { rules: [rule, { ...rule, when: '(?=x', firstLine: 7 }] },
      /the rule of line 7 was left out/,
    ],
    [
      'a section without its base',
      { sections: [{ begin: '[', base: '{year}' }] },
      /a line that times count from was left out/,
    ],
    ['further times in no form', { caught: ['{x}'] }, /the form of further times in the lines was left out/],
  ])('leaves out %s, and says so', (_, change, said) => {
    const usable = usableDraft({ ...report, ...change });
    const yaml = writeDraft(usable);
    expect(yaml).toMatch(said);
    expect(dialect(yaml).lines.length).toBe(1);
    expect(usable.rules).toContain(rule);
  });

  it('is an empty frame where no single part is to blame', () => {
    const usable = usableDraft({ ...report, stamp: { ...stamp, pattern: '{' } });
    expect(writeDraft(usable)).toMatch(/LOOK AT THIS: everything was left out/);
    expect(dialect(writeDraft(usable)).lines.map(({ events }) => events)).toEqual([['note']]);
  });
});
