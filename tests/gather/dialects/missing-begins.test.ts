/** A refocus written down in the same second as the guiding pause for it, and before it: both begins are read. */
import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { rounds, type Line } from './support/kinds.js';

const stampOf = (seconds: number): string => new Date(Date.UTC(2026, 9, 14, 19) + seconds * 1000).toISOString();

/** Three subs and a dither a round; every fourth round with a refocus, whose two begins are in this order. */
function logWith(begins: readonly string[]): string[] {
  const lines = rounds(20, 720, (from, round): Line[] => [
    ...[0, 183, 366].flatMap((at, i): Line[] => [
      [from + at, 'open shutter for 180 s, filter Ha, NGC 281'],
      [from + at + 180, 'shut shutter'],
      [from + at + 182, `stored ngc281_${String(3 * round + i).padStart(3, '0')}.fits`],
    ]),
    ...(round % 4 === 1
      ? [
          ...begins.map((text): Line => [from + 550, text]),
          [from + 650 + round, `best focus found at ${9000 + round}, stars 2.1 px`] as Line,
          [from + 651 + round, 'guiding resumed'] as Line,
        ]
      : []),
    [from + 690, 'nudging the mount by 5 px'],
    [from + 694, 'mount at rest, waiting for calm'],
    [from + 705 + (round % 5), 'calm again'],
  ]);
  return [`${stampOf(-20)} guiding on, star chosen`, ...lines.map(([at, text]) => `${stampOf(at)} ${text}`)];
}

describe('a begin that is left over, and whose ends are read', () => {
  it.each([[['looking for best focus', 'guiding paused']], [['guiding paused', 'looking for best focus']]])(
    'is read for what its ends lack: %j',
    (begins) => {
      const { yaml } = drafted(logWith(begins));
      expect(yaml).toMatch(/^ {2}- when: '\^looking for best focus\$'\n {4}event: focus-begin$/m);
      expect(yaml).toMatch(/^ {2}- when: '\^guiding paused\$'\n {4}event: guiding-rest-begin$/m);
    },
  );
});
