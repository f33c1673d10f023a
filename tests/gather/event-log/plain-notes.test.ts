import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readEventLog } from '../../../src/gather/event-log/index.js';
import { timeOfPlainNote } from '../../../src/gather/event-log/json-line.js';
import { withLog } from '../lines/support/temp-log.js';
import { runs } from '../../support/runs.js';

const AT = '2026-10-14T19:42:10.250Z';

/** Texts between the quotes of a line: as JSON writes them, and as no JSON does. */
const inside = fc
  .array(
    fc.constantFrom('a', ' ', 'é', '\u007f', '\u2028', '🔭', '\\"', '\\\\', '\\u0041', '"', '\\', '\t', '{', ','),
    {
      maxLength: 6,
    },
  )
  .map((parts) => parts.join(''));
const line = fc
  .record({
    at: fc.oneof({ weight: 4, arbitrary: fc.constant(AT) }, fc.constantFrom('1066-10-14T09:00:00Z', 'noon'), inside),
    text: inside,
    shape: fc.constantFrom(
      (at: string, text: string) => `{"at":"${at}","event":"note","text":"${text}"}`,
      (at: string) => `{"at":"${at}","event":"note"}`,
      (at: string, text: string) => `{"at":"${at}","event":"note","text":"${text}","train":"wren"}`,
      (at: string, text: string) => `{ "at":"${at}","event":"note","text":"${text}"}`,
    ),
  })
  .map(({ at, text, shape }) => shape(at, text));

describe('a note that is not parsed', () => {
  it('is JSON, and an object with the time that is found in it', () => {
    fc.assert(
      fc.property(line, (text) => {
        const at = timeOfPlainNote(text);
        if (at === undefined) return;
        const { text: said, ...rest } = JSON.parse(text) as Record<string, unknown>;
        expect(rest).toEqual({ at, event: 'note' });
        expect(['string', 'undefined']).toContain(typeof said);
      }),
      runs(2000),
    );
    expect(timeOfPlainNote(JSON.stringify({ at: AT, event: 'note', text: 'wind, 12 m/s' }))).toBe(AT);
  });

  it('counts as it does where it is parsed', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(line, { maxLength: 8 }), async (lines) => {
        const [parsed, timed] = await withLog(lines.join('\n'), async (root, name) => [
          await readEventLog(root, name, { train: 'heron' }),
          await readEventLog(root, name, { train: 'heron', notes: 'times' }),
        ]);
        expect({ ...timed, events: parsed.events }).toEqual(parsed);
      }),
      runs(300),
    );
  });
});
