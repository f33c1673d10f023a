import { describe, expect, it } from 'vitest';
import { interval, lineTimesOf } from '../../src/model/index.js';
import { guidingActivities } from '../../src/reconstruct/guiding.js';
import { reconstruct } from '../../src/reconstruct/index.js';
import { mountActivities } from '../../src/reconstruct/mount.js';
import { holdActivities, trainActivities } from '../../src/reconstruct/train-lanes.js';
import { at, event } from '../support/events.js';

const night = interval(at('12:00:00'), at('11:59:59'));

describe('a hold', () => {
  it('without an end is over by the next light, not by the end of the log', () => {
    const lights = [at('21:00:00'), at('22:30:00'), at('23:00:00')];
    const held = (...events: Parameters<typeof holdActivities>[0]) =>
      holdActivities(events, undefined, at('04:00:00'), lights);
    const open = held(event('22:00:00', 'hold-begin', { why: 'cloud' }));
    expect(open.activities.map((a) => a.span)).toEqual([interval(at('22:00:00'), at('22:30:00'))]);
    expect(open.warnings[0]?.message).toContain('taken to have ended by the next light');
    // One that says its end goes on over lights: some try in the gaps.
    const closed = held(event('22:00:00', 'hold-begin'), event('23:30:00', 'hold-end'));
    expect(closed.activities.map((a) => a.span.endMs)).toEqual([at('23:30:00')]);
    expect(closed.warnings).toEqual([]);
  });
});

describe('a log that ends hours before another', () => {
  it('leaves nothing going on after its own last line', () => {
    const events = [
      event('21:00:00', 'settling-begin'),
      event('21:00:01', 'focus-begin'),
      event('21:00:20', 'exposure-begin', { seconds: 300 }, 'wren'),
      event('23:30:00', 'exposure-end', {}, 'wren'),
    ].flatMap((e) => (e.event === 'note' ? [] : [e]));
    const { activities } = reconstruct({
      night,
      trains: ['heron', 'wren'],
      headers: [],
      library: [],
      events,
      lineTimes: lineTimesOf(events),
      targets: [],
      filterAliases: {},
      clocks: [],
    });
    const own = activities.filter((a) => a.kind === 'guiding-start' || a.kind === 'settling' || a.kind === 'focus');
    expect(own.map((a) => a.span.endMs)).toEqual([at('21:00:01'), at('21:00:01')]);
  });
});

describe('the mount', () => {
  it('pairs move and settling of a dither', () => {
    const { activities } = mountActivities(
      [
        event('21:00:00', 'dither-begin', { pixels: 5 }),
        event('21:00:04', 'dither-end'),
        event('21:00:04', 'settling-begin'),
        event('21:00:16', 'settling-end', { ok: true }),
      ],
      'heron',
      () => night.endMs,
    );
    expect(activities.map((a) => [a.kind, a.span.endMs - a.span.startMs])).toEqual([
      ['dither-move', 4000],
      ['settling', 12_000],
    ]);
  });

  it('moves once for what a second log tells late, and again for what that train does by itself', () => {
    const dither = (train: string, ...[begin, still, calm]: readonly [string, string, string]) => [
      { ...event(begin, 'dither-begin'), train },
      { ...event(still, 'dither-end'), train },
      { ...event(still, 'settling-begin'), train },
      { ...event(calm, 'settling-end'), train },
    ];
    const reported = [
      ...dither('heron', '21:00:01', '21:00:03', '21:00:12'),
      // Asked every five seconds.
      ...dither('wren', '21:00:05', '21:00:05', '21:00:15'),
      ...dither('wren', '21:07:00', '21:07:02', '21:07:12'),
    ].sort((a, b) => a.atMs - b.atMs);
    const { activities } = mountActivities(reported, 'heron', () => night.endMs);
    expect(activities.map((a) => [a.kind, a.causedBy, a.span.startMs])).toEqual([
      ['dither-move', 'heron', at('21:00:01')],
      ['settling', 'heron', at('21:00:03')],
      ['dither-move', 'wren', at('21:07:00')],
      ['settling', 'wren', at('21:07:02')],
    ]);
  });

  it('takes settling that no line begins to follow the end of the move, or the start of guiding', () => {
    const { activities, warnings } = mountActivities(
      [
        event('20:50:00', 'guiding-begin'),
        event('20:50:25', 'settling-end', { ok: true }),
        event('21:00:00', 'dither-begin', { pixels: 5 }),
        event('21:00:04', 'dither-end'),
        event('21:00:16', 'settling-end', { ok: true }),
        event('21:10:00', 'dither-begin'),
        event('21:10:04', 'dither-end'),
        event('21:10:05', 'exposure-begin', { seconds: 300 }),
        event('21:12:00', 'settling-end', { ok: true }),
      ],
      'heron',
      () => night.endMs,
    );
    expect(activities.map((a) => [a.kind, a.span.endMs - a.span.startMs])).toEqual([
      ['guiding-start', 25_000],
      ['dither-move', 4000],
      ['settling', 12_000],
      ['dither-move', 4000],
    ]);
    // An open shutter lies between: what settles there is not known.
    expect(warnings.map(({ code }) => code)).toEqual(['unpaired-event']);
  });

  it('takes a move whose end is in no log to be over by the pilot’s next exposure, not by the next move', () => {
    const unended = (time: string) => ({ ...event(time, 'dither-begin'), train: undefined });
    const { activities, warnings } = mountActivities(
      [
        unended('21:00:00'),
        event('21:00:20', 'exposure-begin', { seconds: 300 }, 'wren'),
        event('21:00:30', 'exposure-begin', { seconds: 300 }),
        unended('21:30:00'),
      ],
      'heron',
      () => at('21:40:00'),
    );
    expect(activities.map((a) => [a.span.startMs, a.span.endMs])).toEqual([
      [at('21:00:00'), at('21:00:30')],
      [at('21:30:00'), at('21:40:00')],
    ]);
    expect(warnings.map(({ message }) => message)).toEqual([
      'dither-begin has no dither-end; taken to have ended by the next exposure of the train that steers',
      'dither-begin has no dither-end; taken to have ended where the log ends',
    ]);
  });

  it('takes an end of the move a moment behind the settling that a log dates by its rounded length', () => {
    const late = (ms: number) => ({ ...event('21:00:04', 'dither-end'), atMs: at('21:00:04') + ms });
    const reported = (ms: number) =>
      mountActivities(
        [
          event('21:00:00', 'dither-begin', { pixels: 5 }),
          event('21:00:04', 'settling-begin'),
          late(ms),
          event('21:00:16', 'settling-end', { ok: true }),
        ],
        'heron',
        () => night.endMs,
      );
    expect(reported(40).activities.map((a) => [a.kind, a.span.endMs - a.span.startMs])).toEqual([
      ['dither-move', 4000],
      ['settling', 12_000],
    ]);
    expect(reported(40).warnings).toEqual([]);
    expect(reported(5000).warnings.map((w) => w.code)).toEqual(['unpaired-event']);
  });

  it('calls settling without a dither the start of guiding', () => {
    const { activities } = mountActivities(
      [event('21:00:00', 'guiding-begin'), event('21:00:00', 'settling-begin'), event('21:00:14', 'settling-end')],
      'heron',
      () => night.endMs,
    );
    expect(activities.map((a) => a.kind)).toEqual(['guiding-start']);
  });

  it('tells once what two logs tell', () => {
    const both = (train: string, shift: string) => [
      event(`21:00:0${shift}`, 'dither-begin', {}, train),
      event(`21:00:0${Number(shift) + 4}`, 'dither-end', {}, train),
    ];
    const { activities } = mountActivities([...both('heron', '0'), ...both('wren', '1')], 'heron', () => night.endMs);
    expect(activities).toHaveLength(1);
    expect(activities[0]?.causedBy).toBe('heron');
  });

  it('takes a dither’s move to last until the settling begins, where the log says no more: that is its end', () => {
    const { activities, warnings } = mountActivities(
      [event('21:00:00', 'dither-begin'), event('21:00:03', 'settling-begin'), event('21:00:15', 'settling-end')],
      'heron',
      () => night.endMs,
    );
    expect(warnings).toEqual([]);
    expect(activities).toMatchObject([
      { kind: 'dither-move', certainty: 'measured', span: { startMs: at('21:00:00'), endMs: at('21:00:03') } },
      { kind: 'settling', certainty: 'measured', span: { startMs: at('21:00:03'), endMs: at('21:00:15') } },
    ]);
    const cut = [event('21:00:00', 'dither-begin'), event('21:00:20', 'exposure-begin', { seconds: 60 })];
    expect(mountActivities(cut, 'heron', () => night.endMs).warnings).toMatchObject([{ code: 'unclosed-activity' }]);
  });

  it('closes what the log leaves open, and says so', () => {
    const { activities, warnings } = mountActivities(
      [event('21:00:00', 'slew-begin'), event('21:00:40', 'centre-begin'), event('21:01:10', 'centre-end')],
      'heron',
      () => night.endMs,
    );
    expect(activities.find((a) => a.kind === 'slew')).toMatchObject({
      certainty: 'inferred',
      span: { endMs: at('21:00:40') },
    });
    expect(warnings[0]).toMatchObject({ code: 'unclosed-activity', source: { file: 'logs/heron.jsonl' } });
  });

  it('ignores an end without a begin, and says so', () => {
    const { activities, warnings } = mountActivities([event('21:00:00', 'dither-end')], 'heron', () => night.endMs);
    expect(activities).toEqual([]);
    expect(warnings[0]?.code).toBe('unpaired-event');
  });
});

describe('the guiding', () => {
  it('is a chain of states over the night', () => {
    const states = guidingActivities(
      [
        event('20:00:00', 'guiding-begin'),
        event('21:00:00', 'guiding-rest-begin'),
        event('21:01:30', 'guiding-rest-end'),
        event('22:00:00', 'star-gap-begin'),
        event('22:00:50', 'star-gap-end'),
        event('23:00:00', 'guiding-end'),
      ],
      [],
      night,
    );
    expect(states.map((s) => s.kind)).toEqual([
      'guiding-stopped',
      'guiding-on',
      'guiding-rest',
      'guiding-on',
      'star-gap',
      'guiding-on',
      'guiding-stopped',
    ]);
    for (let i = 1; i < states.length; i++) expect(states[i]!.span.startMs).toBe(states[i - 1]!.span.endMs);
  });

  it('says nothing when no log speaks of it', () => {
    expect(guidingActivities([event('20:00:00', 'exposure-begin')], [], night)).toEqual([]);
  });

  it('names the train whose refocus paused it, the one that wrote the pause first', () => {
    const focus = (train: string) =>
      trainActivities(
        train,
        [event('21:00:00', 'focus-begin', {}, train), event('21:01:30', 'focus-end', { ok: true }, train)],
        [],
        night.endMs,
      ).activities;
    const states = guidingActivities(
      [event('21:00:00', 'guiding-rest-begin', {}, 'heron'), event('21:01:30', 'guiding-rest-end', {}, 'heron')],
      [...focus('wren'), ...focus('heron')],
      night,
    );
    expect(states.find((s) => s.kind === 'guiding-rest')).toMatchObject({ causedBy: 'heron', why: 'refocus' });
  });

  it('keeps a pause a pause when the star is lost within', () => {
    const states = guidingActivities(
      [
        event('20:00:00', 'guiding-begin'),
        event('21:00:00', 'guiding-rest-begin'),
        event('21:00:30', 'star-gap-begin'),
        event('21:01:00', 'star-gap-end'),
        event('21:02:00', 'guiding-rest-end'),
      ],
      [],
      night,
    );
    expect(states.filter((s) => s.kind === 'guiding-rest').map((s) => s.span)).toEqual([
      interval(at('21:00:00'), at('21:02:00')),
    ]);
  });
});

describe('a train', () => {
  it('is ready from its word to the dither', () => {
    const begin = event('21:00:30', 'dither-begin');
    const { activities } = trainActivities(
      'wren',
      [event('21:00:00', 'dither-ready', {}, 'wren')],
      [begin],
      night.endMs,
    );
    expect(activities).toMatchObject([
      { kind: 'dither-ready', span: { startMs: at('21:00:00'), endMs: at('21:00:30') } },
    ]);
  });

  it('keeps the figures of a refocus', () => {
    const { activities } = trainActivities(
      'wren',
      [
        event('21:00:00', 'focus-begin', {}, 'wren'),
        event(
          '21:01:30',
          'focus-end',
          { ok: true, sizeBefore: 2.4, sizeAfter: 2.1, position: 9980, temperature: 11.5 },
          'wren',
        ),
      ],
      [],
      night.endMs,
    );
    expect(activities[0]).toMatchObject({
      kind: 'focus',
      facts: { ok: true, sizeBefore: 2.4, sizeAfter: 2.1, position: 9980, temperature: 11.5 },
    });
  });
});
