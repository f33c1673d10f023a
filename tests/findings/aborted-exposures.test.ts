import { describe, expect, it } from 'vitest';
import { abortedExposures } from '../../src/findings/aborted-exposures.js';
import type { Frame } from '../../src/model/index.js';
import { logExposures } from '../../src/reconstruct/log-exposures.js';
import { act, ask, found, HOUR, lights, nightOf, span, T0 } from './support.js';

/** Ten subs of 300 s, of which those named were ended after so many seconds; aborted ones leave no file. */
function cut(train: string, after: Readonly<Record<number, number>>, why?: string): Frame[] {
  return lights(train, { from: 0, seconds: 300, count: 10 }).map((frame, i) => {
    const seconds = after[i];
    if (seconds === undefined) return frame;
    const begin = (frame.exposure.startMs - T0) / 1000;
    return {
      ...frame,
      exposure: span(begin, begin + seconds),
      provenance: 'log-only',
      aborted: true,
      file: undefined,
      header: undefined,
      ...(why === undefined ? {} : { abortWhy: why }),
    };
  });
}

const steady = lights('wren', { from: 0, seconds: 240, count: 12 });

describe('aborted exposures', () => {
  it('are counted with what they cost, and with what they lacked', () => {
    const [finding, ...more] = found(
      abortedExposures,
      nightOf({ frames: [...cut('heron', { 2: 100, 5: 200 }), ...steady] }),
    );
    expect(more).toEqual([]);
    expect(finding).toMatchObject({
      title: 'heron ended 2 exposures early',
      costMs: 300_000,
      frames: 2,
      confidence: 'low',
      advice: expect.stringContaining(
        'The logs do not say what ended the exposures at 21:11 and 21:28: check what heron’s',
      ),
    });
    expect(finding?.winMs).toBeUndefined();
    expect(finding?.evidence).toContain('5 min short of the exposures asked for');
    // The third sub begins at 606 s after 21:00 and lasts 100 s.
    expect(finding?.evidence[0]).toContain('21:11 after 1 min 40 s of 5 min');
  });

  it('after the guiding was lost are ended too soon where it came back within the rules', () => {
    const short = [act('guiding-on', 0, 700), act('star-gap', 700, 707), act('guiding-on', 707, HOUR)];
    const long = [act('guiding-on', 0, 700), act('star-gap', 700, 800), act('guiding-on', 800, HOUR)];
    const of = (activities: typeof short) =>
      found(abortedExposures, nightOf({ frames: [...cut('heron', { 2: 100 }), ...steady], activities }))[0];
    expect(of(short)?.evidence[0]).toMatch(/^guiding was lost or had stopped: /);
    expect(of(short)?.advice).toContain('Guiding was back within 7 s in 1 of 1 case: let heron wait');
    expect(of(long)?.advice).toContain('would have been lost in any case');
  });

  it('before a hold, a move of the mount or a refocus are distinguished', () => {
    const of = (...activities: ReturnType<typeof act>[]) =>
      found(
        abortedExposures,
        nightOf({
          frames: [...cut('wren', { 2: 100 }), ...lights('heron', { from: 0, seconds: 300, count: 10 })],
          activities,
        }),
      )[0];
    const holding = of(act('hold', 708, 1500, { why: 'cloud' }));
    expect(holding?.evidence[0]).toContain('for a hold: 21:11 after 1 min 40 s of 5 min (cloud)');
    expect(holding?.advice).toContain('nothing to change');
    expect(holding?.caution).toBeUndefined();
    const moved = of(act('dither-move', 707, 711, { causedBy: 'heron' }));
    expect(moved?.advice).toMatch(/^Let heron wait before moving the mount until wren’s exposure has ended/);
    expect(moved?.caution).toBeDefined();
    // The pause of the guiding for a refocus is the refocus'.
    const focused = of(act('focus', 707, 800, { train: 'wren' }), act('guiding-rest', 706, 800, { causedBy: 'wren' }));
    expect(focused?.advice).toContain('refocus when an exposure has ended');
    expect(focused?.caution).toBeUndefined();
    // Another train's refocus is nothing to this one.
    expect(of(act('focus', 707, 800, { train: 'heron' }))?.advice).toContain('The logs do not say');
  });

  it('are not laid to a dither that had passed long before, and are to what the log says', () => {
    const dithered = act('dither-move', 620, 624, { causedBy: 'heron' });
    const of = (why?: string) =>
      found(
        abortedExposures,
        nightOf({
          frames: [...cut('wren', { 2: 100 }, why), ...lights('heron', { from: 0, seconds: 300, count: 10 })],
          activities: [dithered],
        }),
      )[0];
    expect(of()?.evidence[0]).toMatch(/^the logs show no cause: /);
    expect(of('guide star lost')).toMatchObject({
      evidence: [
        expect.stringMatching(/^guiding was lost or had stopped: 21:11 .*\(guide star lost\)$/),
        expect.anything(),
      ],
      advice: expect.stringContaining('no guiding log shows'),
    });
    expect(of('clouds')?.advice).toContain('nothing to change here');
  });

  it('give the log’s own reason, and name the last of the night', () => {
    const stated = found(
      abortedExposures,
      nightOf({ frames: [...cut('heron', { 2: 100 }, 'download timeout'), ...steady] }),
    );
    expect(stated[0]?.evidence[0]).toContain('(download timeout)');
    const last = found(abortedExposures, nightOf({ frames: [...cut('heron', { 9: 100 }), ...steady] }));
    expect(last[0]?.evidence[0]).toMatch(/^the last of the night/);
  });

  it('that were finished and not written are said to be so, and what to look after', () => {
    const full = Object.fromEntries([2, 3, 4, 5, 6].map((i) => [i, 300]));
    const [finding] = found(abortedExposures, nightOf({ frames: [...cut('heron', full), ...steady] }));
    expect(finding).toMatchObject({
      title: '5 exposures of heron were never written to disk',
      costMs: 1_500_000,
      advice: expect.stringContaining('5 exposures left no file: make sure that heron’s disk has room'),
    });
    expect(finding?.evidence[0]).toContain('finished, but the log shows no file written: ');
  });

  it('that nothing explains are named by the first times, with the number of the others', () => {
    const all = Object.fromEntries([1, 2, 3, 4, 5, 6].map((i) => [i, 100]));
    const [finding] = found(abortedExposures, nightOf({ frames: [...cut('heron', all), ...steady] }));
    expect(finding?.advice).toMatch(/the exposures at (?:\d\d:\d\d, )+and 2 more: check/);
  });

  it('are not found where every sub had its time, or where only its file is cut off', () => {
    expect(found(abortedExposures, nightOf({ frames: [...cut('heron', {}), ...steady] }))).toEqual([]);
    const torn = cut('heron', {}).map((f, i) =>
      i === 3 && f.header !== undefined ? { ...f, header: { ...f.header, isCutOff: true } } : f,
    );
    expect(found(abortedExposures, nightOf({ frames: [...torn, ...steady] }))).toEqual([]);
  });

  it('are not assessed without logs', () => {
    expect(ask(abortedExposures, nightOf({ frames: steady, headersOnly: true }))).toEqual({
      notAssessed: 'an event log',
    });
  });

  it('have their reason from the log', () => {
    const source = { file: 'logs/heron.jsonl', line: 1 };
    const { exposures } = logExposures([
      { atMs: T0, event: 'exposure-begin', seconds: 300, source },
      { atMs: T0 + 90_000, event: 'exposure-abort', why: 'guide star lost', source },
    ]);
    expect(exposures[0]).toMatchObject({ aborted: true, abortWhy: 'guide star lost' });
  });
});
