import { describe, expect, it } from 'vitest';
import { hold } from '../../src/findings/hold.js';
import { CAUTION } from '../../src/model/index.js';
import { dimmedNight } from './dimmed.js';
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

  it('are distinguished by their reason and by the train', () => {
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

  it.each([
    ['waiting for the meridian', 'track past the meridian as far as its maker allows'],
    ['target too low', 'another target for this time'],
    ['disk full', 'The log does not say'],
    [undefined, 'The log does not say'],
  ])('for %s are not called right, and nothing is said to be beyond help', (why, words) => {
    const activities = [act('hold', 3600, 3600 + 32 * MINUTE, { why })];
    const [finding] = found(hold, nightOf({ frames, activities }));
    expect(finding?.advice).toContain(words);
    expect(finding?.winMs).toBeUndefined();
  });

  it('for a flip that came are counted there', () => {
    const wait = act('hold', 3600, 3600 + 20 * MINUTE, { why: 'waiting for the meridian' });
    const flip = act('flip', 3600 + 20 * MINUTE, 3600 + 22 * MINUTE);
    expect(found(hold, nightOf({ frames, activities: [wait, flip] }))).toEqual([]);
  });

  it('of one train are reported as unnecessary while another’s stars kept their light', () => {
    const own = lights('heron', { from: 0, seconds: 300, count: 10 });
    const other = lights('wren', { from: 0, seconds: 297, count: 40 });
    const held = act('hold', 3600, 3600 + 60 * MINUTE, { why: 'cloud', train: 'heron' });
    const night = nightOf({ frames: [...own, ...other], activities: [held] });
    // The cloud passes half an hour after the roof's sensor saw it.
    const clearFrom = span(3600 + 30 * MINUTE, 9999).startMs;
    const starry = (light: number) =>
      dimmedNight(
        night,
        night.timeline.frames,
        (f) => {
          const frame = night.timeline.frames.find(({ id }) => id === f.id);
          return f.train === 'wren' && frame && frame.exposure.startMs >= clearFrom ? light : 0.4;
        },
        9999,
      );
    const [finding] = found(hold, starry(0.95));
    expect(finding?.advice).toMatch(/^By wren’s stars, the sky was clear from \d\d:\d\d on: find out what held heron/);
    // Six frames of 297 s end within the half hour.
    expect([minutes(finding?.winMs), finding?.confidence]).toEqual([(6 * 297) / 60, 'medium']);
    expect(found(hold, starry(0.8))[0]).toMatchObject({ winMs: 0, confidence: 'high' });
    const windy = nightOf({ frames: [...own, ...other], activities: [{ ...held, why: 'wind' }] });
    expect(found(hold, { ...windy, stars: starry(0.95).stars })[0]).toMatchObject({ winMs: 0 });
  });

  it('are not those of a train that exposed through them, whatever its pauses are charged to', () => {
    const other = lights('wren', { from: 0, seconds: 297, count: 40 });
    const own = lights('heron', { from: 0, seconds: 300, count: 10 });
    // The pilot's log says of no train that it is held.
    const held = act('hold', 3600, 3600 + 60 * MINUTE, { why: 'cloud' });
    const [finding] = found(hold, nightOf({ frames: [...own, ...other], activities: [held] }));
    expect(finding).toMatchObject({ title: '1.0 h on hold: cloud (heron)', costMs: 3_600_000 });
  });

  it('are no moments, and no calibration in the dark', () => {
    const short = act('hold', 3600, 3600 + 4 * MINUTE, { why: 'cloud' });
    expect(found(hold, nightOf({ frames, activities: [short] }))).toEqual([]);
    const flat = { ...calibrationFrame('heron', 'flat', 600), exposure: span(3700, 4300) };
    expect(found(hold, nightOf({ frames: [...frames, flat] }))).toEqual([]);
  });
});
