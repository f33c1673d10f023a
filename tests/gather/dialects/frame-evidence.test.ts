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
