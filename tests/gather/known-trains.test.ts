import { describe, expect, it } from 'vitest';
import { timesOfKnownTrains, withKnownTrains } from '../../src/gather/known-trains.js';
import { event } from '../support/events.js';

describe('trains as a log names them', () => {
  it('are the rig’s for instants of lines too, and none where the rig has none', () => {
    const times = ['HERON', 'stranger', undefined].map((train) => ({ file: 'a.jsonl', train, atMs: [1] }));
    const known = timesOfKnownTrains(times, ['heron', 'wren']);
    expect(known.map(({ train }) => train)).toEqual(['heron', undefined, undefined]);
  });

  it('are the rig’s, whatever the case of their letters', () => {
    const { events, warnings } = withKnownTrains(
      [event('21:00:00', 'exposure-begin', { seconds: 300 }, 'Heron'), event('21:05:00', 'exposure-end', {}, 'heron')],
      ['heron', 'wren'],
    );
    expect(events.map(({ train }) => train)).toEqual(['heron', 'heron']);
    expect(warnings).toEqual([]);
  });

  it('are reported where the rig has none of that name, with the line that mends it; no report names them', () => {
    const { events, warnings } = withKnownTrains(
      [
        event('21:00:00', 'exposure-begin', { seconds: 300 }, 'left'),
        event('21:00:01', 'exposure-begin', { seconds: 300 }, 'right'),
        event('21:05:00', 'dither-begin', {}, 'left'),
      ],
      ['heron', 'wren'],
    );
    expect(events.map(({ train }) => train)).toEqual([undefined, undefined, undefined]);
    expect(warnings).toMatchObject([{ code: 'unknown-train', count: 3 }]);
    expect(warnings[0]?.message).toContain('left and right');
    expect(warnings[0]?.message).toContain('2 of its exposures are left out');
    expect(warnings[0]?.message).toContain('"trains: { left: heron }"');
  });

  it('may be left out by the log', () => {
    const alone = { ...event('21:00:00', 'dither-begin'), train: undefined };
    expect(withKnownTrains([alone], ['heron'])).toEqual({ events: [alone], warnings: [] });
  });
});
