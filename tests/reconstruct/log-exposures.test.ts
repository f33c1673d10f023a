import { describe, expect, it } from 'vitest';
import { logExposures } from '../../src/reconstruct/log-exposures.js';
import { at, event } from '../support/events.js';

describe('exposures in a log', () => {
  it('take begin, end and the file that was saved', () => {
    const { exposures, warnings } = logExposures([
      event('21:00:00', 'exposure-begin', { seconds: 300, filter: 'Ha', target: 'NGC 281' }),
      event('21:05:00', 'exposure-end'),
      event('21:05:03', 'frame-saved', { file: 'a.fits' }),
    ]);
    expect(warnings).toEqual([]);
    expect(exposures).toMatchObject([
      {
        beginMs: at('21:00:00'),
        endMs: at('21:05:00'),
        askedMs: 300_000,
        file: 'a.fits',
        savedMs: at('21:05:03'),
        filter: 'Ha',
        aborted: false,
        endKnown: true,
      },
    ]);
  });

  it('keep an aborted one, without a file', () => {
    const { exposures } = logExposures([
      event('21:00:00', 'exposure-begin', { seconds: 300 }),
      event('21:02:00', 'exposure-abort'),
      event('21:10:00', 'exposure-begin', { seconds: 300 }),
      event('21:15:00', 'exposure-end'),
      event('21:15:02', 'frame-saved', { file: 'b.fits' }),
    ]);
    expect(exposures.map((e) => [e.aborted, e.file])).toEqual([
      [true, undefined],
      [false, 'b.fits'],
    ]);
  });

  it('give an aborted one the file that is saved after it, where no other waits for one', () => {
    const { exposures, warnings } = logExposures([
      event('21:00:00', 'exposure-begin', { seconds: 300 }),
      event('21:01:00', 'exposure-abort'),
      event('21:01:03', 'frame-saved', { file: 'cut.fits' }),
      event('21:02:00', 'exposure-begin', { seconds: 300 }),
      event('21:07:00', 'exposure-end'),
      event('21:07:03', 'frame-saved', { file: 'whole.fits' }),
    ]);
    expect(exposures.map((e) => [e.aborted, e.file])).toEqual([
      [true, 'cut.fits'],
      [false, 'whole.fits'],
    ]);
    expect(warnings).toEqual([]);
  });

  it('work out an end that the log does not tell', () => {
    const { exposures } = logExposures([
      event('21:00:00', 'exposure-begin', { seconds: 300 }),
      event('21:05:04', 'exposure-begin', { seconds: 300 }),
    ]);
    expect(exposures.map((e) => [e.endMs, e.endKnown])).toEqual([
      [at('21:05:00'), false],
      [at('21:10:04'), false],
    ]);
  });

  it('cut an open one where the next begins', () => {
    const { exposures } = logExposures([
      event('21:00:00', 'exposure-begin', { seconds: 300 }),
      event('21:03:00', 'exposure-begin', { seconds: 300 }),
    ]);
    expect(exposures[0]?.endMs).toBe(at('21:03:00'));
  });

  it('work out a begin from the length', () => {
    const { exposures } = logExposures([event('21:05:00', 'exposure-end', { seconds: 300, filter: 'L' })]);
    expect(exposures[0]).toMatchObject({ beginMs: at('21:00:00'), endMs: at('21:05:00'), filter: 'L' });
  });

  it('tell of an end without a begin or a length', () => {
    const { exposures, warnings } = logExposures([event('21:05:00', 'exposure-end')]);
    expect(exposures).toEqual([]);
    expect(warnings[0]).toMatchObject({ code: 'unpaired-event', source: { file: 'logs/heron.jsonl' } });
  });

  it('give a late save to the exposure that still lacks one, even when the next is open', () => {
    const { exposures } = logExposures([
      event('21:00:00', 'exposure-begin', { seconds: 60 }),
      event('21:01:00', 'exposure-end'),
      event('21:01:01', 'exposure-begin', { seconds: 60 }),
      event('21:01:03', 'frame-saved', { file: 'first.fits' }),
      event('21:02:01', 'exposure-end'),
      event('21:02:04', 'frame-saved', { file: 'second.fits' }),
    ]);
    expect(exposures.map((e) => e.file)).toEqual(['first.fits', 'second.fits']);
  });

  it('that ended in full have no file where a failure is reported before the next begins', () => {
    const night = (...more: ReturnType<typeof event>[]) =>
      logExposures([
        event('21:00:00', 'exposure-begin', { seconds: 300 }),
        event('21:05:00', 'exposure-end'),
        ...more,
        event('21:06:00', 'exposure-begin', { seconds: 300 }),
      ]);
    const failed = night(event('21:05:03', 'exposure-abort', { file: 'a.fits', why: 'disk full' }));
    expect(failed.warnings).toEqual([]);
    expect(failed.exposures[0]).toMatchObject({ endMs: at('21:05:00'), aborted: false, notSaved: true });
    expect(failed.exposures[0]?.abortWhy).toBe('disk full');
    const again = night(
      event('21:05:03', 'exposure-abort', { file: 'a.fits' }),
      event('21:05:09', 'frame-saved', { file: 'a.fits' }),
    );
    expect(again.exposures[0]).toMatchObject({ file: 'a.fits', notSaved: undefined });
  });

  it('inherit filter and target from what was said before', () => {
    const { exposures } = logExposures([
      event('20:59:00', 'filter-begin', { to: 'OIII' }),
      event('21:00:00', 'exposure-begin', { seconds: 60, target: 'M 33' }),
      event('21:01:00', 'exposure-end'),
      event('21:02:00', 'exposure-begin', { seconds: 60 }),
    ]);
    expect(exposures.map((e) => [e.filter, e.target])).toEqual([
      ['OIII', 'M 33'],
      ['OIII', 'M 33'],
    ]);
  });
});
