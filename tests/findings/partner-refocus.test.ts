import { CAUTION } from '../../src/model/index.js';
import { describe, expect, it } from 'vitest';
import { partnerRefocus } from '../../src/findings/partner-refocus.js';
import { replayNight } from '../../src/replay/index.js';
import { act, ask, found, HERON, HOUR, lights, nightOf } from './support.js';

const on = (from: number, to: number) => act('guiding-on', from, to);
const refocus = (from: number, seconds: number, train = 'heron') => [
  act('focus', from, from + seconds, { train }),
  act('guiding-rest', from, from + seconds, { causedBy: train, why: 'refocus' }),
];
const wren = lights('wren', { from: 0, seconds: 240, count: 20 });

describe('a refocus under the other train’s open shutter', () => {
  it('is found with the frames it cost, and carries the caution for a guide scope', () => {
    const night = nightOf({
      frames: [...wren, ...lights('heron', { from: 700, seconds: 300, count: 5 })],
      activities: [on(0, 600), ...refocus(600, 100), on(700, 2 * HOUR)],
    });
    const [finding] = found(partnerRefocus, night);
    expect(finding).toMatchObject({
      title: 'heron’s refocus cost wren 1 frame',
      costMs: 240_000,
      frames: 1,
      caution: CAUTION,
    });
    // What the other shutters lose by it is known to the replay alone.
    expect(finding?.winMs).toBeUndefined();
    expect(finding?.advice).toContain('Refocus all trains together');
  });

  it('says doubtful where the frame is only that', () => {
    // Eight seconds within the third exposure: a frame is lost above twelve.
    const night = nightOf({ frames: wren, activities: [on(0, 490), ...refocus(490, 8), on(498, 2 * HOUR)] });
    expect(found(partnerRefocus, night)[0]?.title).toBe('heron’s refocus made 1 frame of wren doubtful');
  });

  it('is not found where the refocus met closed shutters', () => {
    const frames = [
      ...lights('wren', { from: 0, seconds: 240, count: 2 }),
      ...lights('wren', { from: 700, seconds: 240, count: 10 }),
    ];
    expect(
      found(partnerRefocus, nightOf({ frames, activities: [on(0, 500), ...refocus(500, 150), on(650, 2 * HOUR)] })),
    ).toEqual([]);
  });

  it('is not found where a train only harmed itself', () => {
    const night = nightOf({ frames: wren, activities: [on(0, 500), ...refocus(500, 100, 'wren'), on(600, 2 * HOUR)] });
    expect(found(partnerRefocus, night)).toEqual([]);
  });

  it('advises what wins: a guide scope where refocusing together wins nothing, if it wins five minutes', () => {
    // Two frames of four minutes are harmed.
    const activities = [
      ...[on(0, 600), ...refocus(600, 100), on(700, 2000)],
      ...[...refocus(2000, 100), on(2100, 2 * HOUR)],
    ];
    const plain = nightOf({ frames: [...wren, ...lights('heron', { from: 700, seconds: 300, count: 4 })], activities });
    const replay = replayNight(plain);
    if ('missing' in replay) throw new Error('not replayed');
    const gain = (minutes: number) => ({ meanMs: minutes * 60_000, lowMs: minutes * 60_000, highMs: minutes * 60_000 });
    const [whatIf] = replay.whatIfs;
    const findingFor = (together: number, scope: number) => {
      const ways = [
        ['focus-together', together],
        ['guide-scope', scope],
      ] as const;
      const whatIfs = ways.flatMap(([id, minutes]) => (whatIf ? [{ ...whatIf, id, gain: gain(minutes) }] : []));
      return found(partnerRefocus, { ...plain, replay: { ...replay, confidence: 'high' as const, whatIfs } })[0];
    };
    expect(findingFor(0, 20)?.advice).toMatch(/^Guide with a separate guide scope/);
    expect(findingFor(0, 20)?.winMs).toBe(20 * 60_000);
    for (const finding of [findingFor(6, 20), findingFor(0, 4)])
      expect(finding?.advice).toMatch(/^Refocus all trains together/);
  });

  it('advises other than a guide scope where there is one', () => {
    const night = nightOf({
      frames: wren,
      activities: [on(0, 600), ...refocus(600, 100), on(700, 2 * HOUR)],
      guideSource: { source: 'guide-scope' },
    });
    const [finding] = found(partnerRefocus, night);
    expect(finding?.advice).toContain('without pausing the guiding');
    expect(finding?.caution).toBeUndefined();
  });

  it('is not assessed without guiding events, nor with one train', () => {
    expect(ask(partnerRefocus, nightOf({ frames: wren }))).toEqual({ notAssessed: 'guiding events in a log' });
    expect(
      ask(
        partnerRefocus,
        nightOf({
          frames: lights('heron', { from: 0, seconds: 60, count: 3 }),
          activities: [on(0, 600)],
          trains: [HERON],
        }),
      ),
    ).toEqual({ notAssessed: 'a second train' });
  });
});
