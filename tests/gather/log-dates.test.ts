import { describe, expect, it } from 'vitest';
import { eventsNearFrames } from '../../src/gather/log-dates.js';
import { at, event } from '../support/events.js';

describe('log times far from every frame', () => {
  const good = [event('21:00:00', 'exposure-begin'), event('21:05:00', 'exposure-end')];
  const epoch = good.map((e, i) => ({ ...e, atMs: i * 300_000 }));

  it('are left out and said, once per log', () => {
    const { events, warnings } = eventsNearFrames([...good, ...epoch], [at('21:00:00')]);
    expect(events).toEqual(good);
    expect(warnings).toHaveLength(1);
    expect(warnings[0]?.message).toMatch(
      /^2 of 4 events .* more than two days from every frame \(the first on 1970-01-01\)/,
    );
  });

  it('may be a day before or after', () => {
    const early = good.map((e) => ({ ...e, atMs: e.atMs - 40 * 3_600_000 }));
    expect(eventsNearFrames(early, [at('21:00:00')]).warnings).toEqual([]);
  });

  it('cannot be told without frames', () => {
    expect(eventsNearFrames(epoch, []).events).toEqual(epoch);
  });
});
