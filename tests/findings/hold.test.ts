import { describe, expect, it } from 'vitest';
import { hold } from '../../src/findings/hold.js';
import { CAUTION } from '../../src/model/index.js';
import { act, calibrationFrame, found, HOUR, lights, minutes, MINUTE, nightOf, span } from './support.js';

const frames = ['heron', 'wren'].flatMap((train) => [
  ...lights(train, { from: 0, seconds: 300, count: 10 }),
  ...lights(train, { from: 2 * HOUR, seconds: 300, count: 10 }),
]);

describe('holds', () => {
  it('stand among the costs, once in wall time and for each train, and promise nothing', () => {
    const cloud = act('hold', 3600, 3600 + 32 * MINUTE, { why: 'cloud' });
    const [finding, ...rest] = found(hold, nightOf({ frames, activities: [cloud] }));
    expect(rest).toEqual([]);
    expect(finding).toMatchObject({ title: '32 min on hold: cloud (all trains)', winMs: 0 });
    expect(minutes(finding?.costMs)).toBeCloseTo(64, 6);
    expect(finding?.minutes).toEqual(['heron', 'wren'].map((train) => ({ train, span: cloud.span })));
  });

  it('are told apart by their reason and by the train', () => {
    const activities = [
      act('hold', 3600, 3600 + 10 * MINUTE, { why: 'cloud' }),
      act('hold', 5000, 5000 + 8 * MINUTE, { why: 'wind', train: 'wren' }),
    ];
    expect(found(hold, nightOf({ frames, activities })).map((f) => f.title)).toEqual([
      '10 min on hold: cloud (all trains)',
      '8 min on hold: wind (wren)',
    ]);
  });

  it.each([
    ['wind: roof closed', 'the wind dropped'],
    ['cloud', 'the sky cleared'],
    ['unsafe', 'it was safe again'],
  ])('for %s are advised of in its own words, with the caution that a roof wants', (why, words) => {
    const activities = [act('hold', 3600, 3600 + 32 * MINUTE, { why })];
    const [finding] = found(hold, nightOf({ frames, activities }));
    expect(finding?.advice).toContain(`If ${words} earlier`);
    expect(finding?.caution).toBe(CAUTION);
  });

  it('are no moments, and no calibration in the dark', () => {
    const short = act('hold', 3600, 3600 + 4 * MINUTE, { why: 'cloud' });
    expect(found(hold, nightOf({ frames, activities: [short] }))).toEqual([]);
    const flat = { ...calibrationFrame('heron', 'flat', 600), exposure: span(3700, 4300) };
    expect(found(hold, nightOf({ frames: [...frames, flat] }))).toEqual([]);
  });
});
