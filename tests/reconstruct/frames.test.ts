import { describe, expect, it } from 'vitest';
import { trainFrames } from '../../src/reconstruct/frames.js';
import { interval } from '../../src/model/index.js';
import type { LogExposure } from '../../src/reconstruct/log-exposures.js';
import { at, header } from '../support/events.js';

const naming = { filter: (raw: string) => raw, target: (raw: string) => raw };

function logged(begin: string, seconds: number, more: Partial<LogExposure> = {}): LogExposure {
  return {
    beginMs: at(begin),
    endMs: at(begin) + seconds * 1000,
    endKnown: true,
    askedMs: seconds * 1000,
    aborted: false,
    sources: [{ file: 'log', line: 1 }],
    ...more,
  };
}

describe('frames of a train', () => {
  it('match by file name, whatever folder and ending', () => {
    const { frames, warnings } = trainFrames(
      'heron',
      [header('frames/Ha/A_1.fits.gz', '21:00:00', 300)],
      [logged('21:00:00.4', 300, { file: 'D:\\images\\a_1.fits' })],
      naming,
    );
    expect(frames).toHaveLength(1);
    expect(frames[0]).toMatchObject({
      provenance: 'log-and-file',
      file: 'frames/Ha/A_1.fits.gz',
      exposure: { startMs: at('21:00:00') },
    });
    expect(warnings).toEqual([]);
  });

  it('match by time where the log names no file', () => {
    const { frames } = trainFrames(
      'heron',
      [header('a.fits', '21:00:01', 300), header('b.fits', '21:05:05', 300)],
      [logged('21:00:00', 300), logged('21:05:04', 300)],
      naming,
    );
    expect(frames.map((f) => f.provenance)).toEqual(['log-and-file', 'log-and-file']);
  });

  it('match by time where a file was renamed since the log named it: one camera exposes once at a time', () => {
    const { frames } = trainFrames(
      'heron',
      [header('lights_1.fits', '21:00:01', 300), header('heron_2.fits', '21:05:05', 300)],
      [logged('21:00:00', 300, { file: 'heron_1.fits' }), logged('21:05:04', 300, { file: 'heron_2.fits' })],
      naming,
    );
    expect(frames.map((f) => f.provenance)).toEqual(['log-and-file', 'log-and-file']);
  });

  it('do not match by time what differs in length', () => {
    const { frames } = trainFrames('heron', [header('a.fits', '21:00:00', 300)], [logged('21:00:00', 60)], naming);
    expect(frames.map((f) => f.provenance).sort()).toEqual(['file-only', 'log-only']);
  });

  it('are none where a line begins an exposure without length, end or file, and the log goes on at once', () => {
    const guessed = { endKnown: false, askedMs: undefined, rule: { file: 'dialects/tern.yaml', line: 12 } };
    const { frames, warnings } = trainFrames(
      'heron',
      [],
      [logged('21:00:00', 0.3, guessed), logged('21:10:00', 0.3, guessed), logged('21:20:00', 240, guessed)],
      naming,
    );
    expect(frames.map(({ exposure }) => exposure.startMs)).toEqual([at('21:20:00')]);
    expect(warnings).toContainEqual(
      expect.objectContaining({
        code: 'exposure-without-length',
        message: expect.stringMatching(/into exposure-begin: dialects\/tern\.yaml:12$/),
        count: 2,
        source: { file: 'log', line: 1 },
      }),
    );
    // Our own event log has no dialect to correct.
    const own = trainFrames('heron', [], [logged('21:00:00', 0.3, { ...guessed, rule: undefined })], naming);
    expect(own.warnings[0]?.message).toMatch(/"seconds" in exposure-begin/);
    // A stated length, a stated end, or a file: it is one however short.
    const short = [logged('21:00:00', 0.3, { endKnown: false }), logged('21:10:00', 0.3, { askedMs: undefined })];
    expect(trainFrames('heron', [], short, naming).frames).toHaveLength(2);
  });

  it('keep and tell a log entry without file and a file without log entry', () => {
    const { frames, warnings } = trainFrames(
      'heron',
      [header('stray.fits', '22:00:00', 300)],
      [logged('21:00:00', 300, { file: 'gone.fits' })],
      naming,
    );
    expect(frames).toHaveLength(2);
    expect(warnings.map((w) => w.code).sort()).toEqual(['file-missing', 'log-missing']);
  });

  it('say nothing of a missing file for an aborted exposure', () => {
    const { warnings } = trainFrames(
      'heron',
      [],
      [logged('21:00:00', 120, { aborted: true, askedMs: 300_000 })],
      naming,
    );
    expect(warnings).toEqual([]);
  });

  it('count copies once', () => {
    const a = header('a.fits', '21:00:00', 300);
    const { frames, warnings } = trainFrames('heron', [a, { ...a, file: 'backup/a.fits' }], [], naming);
    expect(frames).toHaveLength(1);
    expect(warnings[0]).toMatchObject({ code: 'duplicate-frame', source: { file: 'backup/a.fits' } });
  });

  it('are placed by the log where the clocks disagree', () => {
    const begins = ['21:00:00', '21:05:05', '21:10:10', '21:15:15'];
    const headers = begins.map((b, i) => ({
      ...header(`${i}.fits`, b, 300),
      exposure: { startMs: at(b) + 37_000, endMs: at(b) + 337_000 },
    }));
    const { frames } = trainFrames(
      'heron',
      headers,
      begins.map((b, i) => logged(b, 300, { file: `${i}.fits` })),
      naming,
    );
    expect(frames.map((f) => f.exposure.startMs)).toEqual(begins.map(at));
  });

  it('have ids of their own even at the same instant', () => {
    const { frames } = trainFrames(
      'heron',
      [
        header('a.fits', '21:00:00', 300),
        {
          file: 'b.fits',
          sizeBytes: 5760,
          headerHash: 'b',
          kind: 'dark',
          exposure: interval(at('21:00:00'), at('21:00:10')),
          exposureSeconds: 10,
        },
      ],
      [],
      naming,
    );
    expect(new Set(frames.map((f) => f.id)).size).toBe(2);
  });
});
