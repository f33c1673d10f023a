import { describe, expect, it } from 'vitest';
import { agreement, agreementNote } from '../../../src/gather/dialects/index.js';
import { at, event } from '../../support/events.js';

const TIMES = ['21:00:00', '21:05:10', '21:10:20', '21:15:30'];
const frames = (shiftS: number) =>
  TIMES.map((time) => ({ file: `${time}.fits`, beginMs: at(time) + 1000 * shiftS, seconds: 300 }));
const exposures = (train: string) => TIMES.map((time) => event(time, 'exposure-begin', { seconds: 300 }, train));

function noteOf(...args: Parameters<typeof agreement>): string {
  const found = agreement(...args);
  return found === null ? '' : agreementNote(found);
}

describe('the exposures of a log against frames', () => {
  it('agree to the tenth of a second, and this is said in words', () => {
    expect(noteOf(exposures('heron'), frames(0))).toBe(
      '4 of 4 exposures of the log have a frame of their own that begins within 8 s (4 frames in the session); ' +
        'log and headers agree.',
    );
  });

  it('have one frame each: two trains that begin together do not vouch for each other', () => {
    const both = [...exposures('heron'), ...exposures('wren')];
    expect(noteOf(both, [...frames(0), ...frames(95)])).toBe(
      '4 of 8 exposures of the log have a frame of their own that begins within 8 s (8 frames in the session); ' +
        'log and headers agree. None of the 4 of wren has one: its computer’s clock is off, or its frames are ' +
        'elsewhere.',
    );
  });

  it('that hardly ever fall on a frame are not said to agree', () => {
    const elsewhere = frames(0).map((f, i) => (i === 0 ? f : { ...f, beginMs: f.beginMs + 97_000 + 11_000 * i }));
    expect(noteOf(exposures('heron'), elsewhere)).toMatch(/^1 of 4 exposures .*, which may be chance: are the time/);
  });

  it('tell a zone by whole quarters of an hour', () => {
    expect(noteOf(exposures('heron'), frames(-7200))).toContain('if the log is taken to be off by +2 h');
  });

  it('are counted by train and filter: those of another train do not vouch for a train without lines', () => {
    const all = [
      ...frames(0).map((frame, i) => ({ ...frame, train: 'heron', filter: i < 3 ? 'Ha' : 'OIII' })),
      ...frames(2).map((frame) => ({ ...frame, seconds: 180, train: 'wren', filter: 'L' })),
    ];
    expect(noteOf(exposures('heron'), all)).toBe(
      '4 of 4 exposures of the log have a frame of their own that begins within 8 s (8 frames in the session); ' +
        'log and headers agree. Frames with an exposure in the log: heron Ha 3 of 3, heron OIII 1 of 1, wren L 0 of 4. ' +
        'No frame of wren L has one: are their lines read?',
    );
  });
});
