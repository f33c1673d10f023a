import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { dialect, read } from './support/read.js';

const two = (n: number): string => String(n).padStart(2, '0');
const clock = (at: Date, mark: string): string =>
  [at.getUTCHours(), at.getUTCMinutes(), at.getUTCSeconds()].map(two).join(mark);

type Form = (at: Date) => string;
const DATED: Form = (at) =>
  `${two(at.getUTCDate())}.${two(at.getUTCMonth() + 1)}.${at.getUTCFullYear()} ${clock(at, ':')}`;
const YEARLESS: Form = (at) => `[${at.getUTCDate()}/${at.getUTCMonth() + 1} ${clock(at, '.')}]`;
const ISO: Form = (at) => at.toISOString().slice(0, 19);

const CAMERA = ['shutter opens: M 51, L, 300 s', 'shutter closed', 'frame saved as a.fits'];
const MOUNT = ['slewing to M 51', 'slew done', 'centring M 51', 'centring done'];
const GUIDER = ['dither begins', 'dither done', 'settling', 'settled', 'guide star lost'];

/** A line, and its instant. */
type Line = readonly [text: string, atMs: number];

/** One writer's lines of the night of an evening, two hours before to two hours past midnight. */
function writer(evening: string, form: Form, texts: readonly string[], minute: number): Line[] {
  const base = Date.parse(`${evening}T22:00:00Z`);
  return Array.from({ length: 24 }, (_, i): Line => {
    const atMs = base + (minute + i * 10) * 60_000 + i * 1000;
    return [`${form(new Date(atMs))} ${texts[i % texts.length] ?? ''}`, atMs];
  });
}

/** The times that a draft's stamps give to the lines, whatever happens in them. */
async function times(lines: readonly string[], file?: string, sessionDate = ''): Promise<readonly number[]> {
  const { yaml } = drafted(lines, file);
  dialect(yaml);
  const everyLine = `${yaml.split('\nlines:\n')[0] ?? ''}\nlines:\n  - when: '\\w'\n    event: note\n`;
  const name = file ?? 'night.log';
  const { events } = await read(everyLine, `${lines.join('\n')}\n`, { zone: 'UTC', name, sessionDate });
  return events.map(({ atMs }) => atMs);
}

describe('a log of several writers, one of whom states no year', () => {
  const camera = writer('2026-04-14', DATED, CAMERA, 0);
  const mount = writer('2026-04-14', YEARLESS, MOUNT, 3);
  const guider = writer('2026-04-14', ISO, GUIDER, 7);

  it.each([
    ['the other form', [...camera, ...mount], [], undefined, undefined],
    ['the session, where its lines come first', [...mount, ...camera], [], undefined, '2026-04-14'],
    ['the head', [...mount, ...camera], ['Log of the night of 14.04.2026'], undefined, undefined],
    ['the year at the head', [...mount, ...camera], ['Observing log 2026'], undefined, undefined],
    ['the name of the file', [...mount, ...camera], [], 'night_2026-04-14.log', undefined],
    ['the other forms, behind both', [...camera, ...guider, ...mount], [], undefined, undefined],
    ['the other forms, between both', [...guider, ...mount, ...camera], [], undefined, undefined],
  ])('takes the year from %s', async (_, lines, head, file, sessionDate) => {
    const found = await times([...head, ...lines.map(([text]) => text)], file, sessionDate);
    expect(found).toEqual(lines.map(([, atMs]) => atMs));
  });

  it('goes on past the end of the year', async () => {
    const lines = [...writer('2026-12-31', DATED, CAMERA, 0), ...writer('2026-12-31', YEARLESS, MOUNT, 3)];
    const texts = lines.map(([text]) => text);
    expect(await times(texts, undefined, '2026-12-31')).toEqual(lines.map(([, atMs]) => atMs));
  });
});
