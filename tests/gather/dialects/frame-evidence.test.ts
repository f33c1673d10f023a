import { describe, expect, it } from 'vitest';
import { frameEvidence } from '../../../src/gather/dialects/draft/frame-evidence.js';
import { kindLike, kindsOf, rounds } from './support/kinds.js';

const kinds = kindsOf(
  rounds(8, 320, (from, i) => [
    [from, `zof ${i}`],
    [from + 300, `rin ${i}`],
    [from + 302, `plo a_${i}.fits`],
    [from + 140, `gru ${i}`],
  ]),
);
/** The frames of the same exposures, in a zone two hours off. */
const frames = Array.from({ length: 8 }, (_, i) => ({
  file: `lights/a_${i}.fits`,
  beginMs: (7200 + i * 320) * 1000,
  seconds: 300,
}));

describe('the frames of a session', () => {
  const evidence = frameEvidence(kinds, frames);
  const of = (beginning: string): string[] => [...(evidence.get(kindLike(kinds, beginning))?.keys() ?? [])];

  it('tell the lines that open and close the shutter, whatever their words and zone', () => {
    expect(of('zof')).toEqual(['exposure-begin']);
    expect(of('rin')).toEqual(['exposure-end']);
    expect(of('gru')).toEqual([]);
  });

  it('tell saved frames by their names', () => {
    expect(of('plo')).toContain('frame-saved');
  });
});

/** What frames of 300 s each, that begin so many seconds after each round of a log, tell of its lines. */
function eventsRead(lines: Parameters<typeof rounds>[2], ...after: readonly number[]): (beginning: string) => string[] {
  const own = kindsOf(rounds(24, 340, lines));
  const evidence = frameEvidence(
    own,
    Array.from({ length: 24 }, (_, i) =>
      after.map((seconds) => ({ file: `${i}-${seconds}.fits`, beginMs: (i * 340 + seconds) * 1000, seconds: 300 })),
    ).flat(),
  );
  return (beginning) => [...(evidence.get(kindLike(own, beginning))?.keys() ?? [])];
}

describe('lines that stand beside frames', () => {
  it('open no shutter where other lines stand nearer, or at more frames', () => {
    const of = eventsRead(
      (from, i) => [
        [from - 2, `morr ${i}`],
        ...(i % 4 === 0 ? ([[from - 1, 'tull']] as const) : []),
        [from, `zof ${i}`],
        [from + 300, `rin ${i}`],
      ],
      0,
    );
    expect(of('zof')).toEqual(['exposure-begin']);
    expect(of('rin')).toEqual(['exposure-end']);
    expect([...of('morr'), ...of('tull')]).toEqual([]);
  });

  it('open none where lines at the ends of frames alone tell of them', () => {
    const of = eventsRead(
      (from, i) => [...(i % 4 === 0 ? ([[from - 2, 'tull']] as const) : []), [from + 300, `rin ${i}`]],
      0,
    );
    expect(of('tull')).toEqual([]);
    expect(of('rin')).toEqual(['exposure-end']);
  });

  it('close none where words name something else', () => {
    const of = eventsRead(
      (from, i) => [
        [from, `zof ${i}`],
        [from + 300, `dither of 2.${i} px begins`],
      ],
      0,
    );
    expect(of('zof')).toEqual(['exposure-begin']);
    expect(of('dither')).toEqual([]);
  });

  it('open those of two trains that begin together', () => {
    const of = eventsRead(
      (from, i) => [[from, `heron zof ${i}`], ...(i % 8 === 0 ? [] : [[from + 2, `wren zof ${i}`] as const])],
      0,
      2,
    );
    expect(of('heron')).toEqual(['exposure-begin']);
    expect(of('wren')).toEqual(['exposure-begin']);
  });
});
