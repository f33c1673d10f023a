import { describe, expect, it } from 'vitest';
import { isReplayed, type Night, type Replay } from '../../../src/model/index.js';
import { viewContext } from '../../../src/report/html/view/context.js';
import { replayView } from '../../../src/report/html/view/replay.js';
import { namedNight, USUAL_NAMES } from '../../support/nights.js';
import { replayedNight } from '../../support/replayed-night.js';

const view = (night: Night) => replayView(viewContext(night));
function replayOf(night: Night): Replay {
  if (!isReplayed(night.replay)) throw new Error('the night was not replayed');
  return night.replay;
}

describe('the section of the night replayed', () => {
  const night = replayedNight('twin-night');
  const replay = replayOf(night);

  it('states the error on this night, in all and train by train, and the confidence', () => {
    const share = Math.abs((replay.errorShare ?? NaN) * 100).toFixed(1);
    expect(view(night).trust).toContain(`an error of ${share} %`);
    for (const id of Object.keys(replay.errorShares))
      expect(view(night).trust).toMatch(new RegExp(`${id} \\d+\\.\\d %`));
    expect(view(night).trust).toContain(`Confidence: ${replay.confidence}`);
  });

  it('says why the confidence is not high', () => {
    const unsure: Night = {
      ...night,
      replay: { ...replay, confidence: 'medium', doubts: ['there is no event log', 'the count varies'] },
    };
    expect(view(unsure).trust).toContain('Confidence: medium, because there is no event log and the count varies.');
  });

  it('has a row for every what-if and for the night as it was, with as many cells as columns', () => {
    const table = view(night).whatIfs;
    const rows = table?.bodies?.flatMap((body) => body.rows) ?? [];
    expect(rows).toHaveLength(replay.whatIfs.length + 1);
    for (const row of rows) expect(row.cells).toHaveLength(table?.columns.length ?? 0);
  });

  it('gives the best as settings that can be asked for again', () => {
    const best = view(night).best;
    expect(best === null).toBe(replay.best === null);
    for (const setting of replay.best?.settings ?? []) expect(best?.settings).toContain(`--set ${setting}`);
  });

  it('carries the caution when the best touches hardware', () => {
    const [first] = replay.whatIfs;
    if (!first) throw new Error('nothing was asked');
    expect(view({ ...night, replay: { ...replay, best: { ...first, handsOn: true } } }).best?.caution).toContain(
      'mains work is for licensed electricians',
    );
    expect(view({ ...night, replay: { ...replay, best: { ...first, handsOn: false } } }).best?.caution).toBe('');
  });

  it('marks the night’s own row where its filters lack places of their own', () => {
    const own = (places: number): string => {
      const baseline = { ...replay.baseline, places: replay.baseline.places.map((p) => ({ ...p, places })) };
      const [row] = view({ ...night, replay: { ...replay, baseline } }).whatIfs?.bodies?.[0]?.rows ?? [];
      return [row?.cells[0]?.text, ...(row?.cells[0]?.lines ?? [])].join(' | ');
    };
    expect(own(12)).toBe('As it was, mean of the runs');
    expect(own(8)).toMatch(/ \| leaves 8 dither positions for \w+ on \w+ and too few for \d+ more$/);
  });

  it('says of a gain that it is smaller than the replay’s own error', () => {
    const { best } = replay;
    if (!best) throw new Error('there is a best on this night');
    const off = { ...replay, exact: { ...replay.exact, keptMs: 0 } };
    expect(view({ ...night, replay: off }).best?.gain).toContain('less than the error of the replay itself');
    const unsure = { ...replay, confidence: 'low' as const };
    expect(view({ ...night, replay: unsure }).best?.gain).toContain('too uncertain to promise at this confidence');
    expect(view(night).best?.gain).not.toContain('off by');
  });

  it('says behind the best what it asks for', () => {
    const { best } = replay;
    if (!best) throw new Error('there is a best on this night');
    const asking = { ...best, title: 'longer subs', outside: [], newDarks: ['300 s on wren'], handsOn: false };
    expect(view({ ...night, replay: { ...replay, best: asking } }).best?.title).toBe(
      'longer subs (needs new darks: 300 s on wren)',
    );
    const free = { ...asking, newDarks: [] };
    expect(view({ ...night, replay: { ...replay, best: free } }).best?.title).toBe('longer subs');
  });

  it('compares no rules by what they keep of nothing', () => {
    expect(view({ ...night, replay: { ...replay, errorShare: null } })).toMatchObject({ whatIfs: null, best: null });
  });

  it('says so where nothing gains a minute', () => {
    const [first] = replay.whatIfs;
    if (!first) throw new Error('nothing was asked');
    const noneWith = (gainMs: number): string => {
      const one = { ...first, title: 'longer rows', gain: { meanMs: gainMs, lowMs: gainMs, highMs: gainMs } };
      return view({ ...night, replay: { ...replay, best: null, whatIfs: [{ ...one, outside: [] }] } }).none;
    };
    expect(noneWith(30_000)).toMatch(/is sure to gain a minute\.$/);
    // What enters no combination may win alone.
    expect(noneWith(780_000)).toMatch(/is sure to gain a minute; the remedy of one fault is, \+13 min: longer rows\.$/);
  });

  it('is nothing but a reason where nothing was replayed', () => {
    expect(view(namedNight('twin-night'))).toMatchObject({ whatIfs: null, missing: 'The night was not replayed.' });
    expect(view(replayedNight('no-frames')).missing).toBe(
      'The night cannot be replayed: it lacks a train with at least two lights.',
    );
  });

  it.each(USUAL_NAMES)('has no hole in it: %s', (name) => {
    expect(JSON.stringify(view(replayedNight(name)))).not.toMatch(/NaN|undefined|Infinity/);
  });
});
