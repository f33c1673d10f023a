import { gzipSync } from 'node:zlib';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readEventLog } from '../../../src/gather/event-log/index.js';
import type { LogRead } from '../../../src/gather/lines/log-read.js';
import { EVENT_NAMES, hasField, type EventFields, type EventName, type FieldName } from '../../../src/model/index.js';
import { utf16, withLog } from '../lines/support/temp-log.js';
import { runs } from '../../support/runs.js';

const read = (content: string | Uint8Array, train?: string): Promise<LogRead> =>
  withLog(content, (root, name) => readEventLog(root, name, train === undefined ? {} : { train }), 'heron.jsonl');

const AT = '"at":"2026-10-14T19:42:10.250Z"';
const AT_MS = Date.UTC(2026, 9, 14, 19, 42, 10, 250);
const BEGIN = `{${AT},"event":"exposure-begin","filter":"Ha","seconds":300,"target":"NGC 281"}`;

describe('the event log', () => {
  it('gives events in the order of the lines, each with its line, train and fields', async () => {
    const log = await read(`${BEGIN}\n{"at":"2026-10-14T21:47:10+02:00","event":"exposure-end"}\n`, 'heron');
    expect(log.events).toEqual([
      {
        atMs: AT_MS,
        event: 'exposure-begin',
        train: 'heron',
        filter: 'Ha',
        seconds: 300,
        target: 'NGC 281',
        source: { file: 'heron.jsonl', line: 1 },
      },
      {
        atMs: Date.UTC(2026, 9, 14, 19, 47, 10),
        event: 'exposure-end',
        train: 'heron',
        source: { file: 'heron.jsonl', line: 2 },
      },
    ]);
    expect(log).toMatchObject({ lines: 2, understood: 2, warnings: [] });
  });

  it('reads the names of older logs as what they are called now, and says so', async () => {
    const log = await read(`{${AT},"event":"star-lost","why":"cloud"}\n{${AT},"event":"settle-end","ok":true}\n`);
    expect(log.events).toMatchObject([
      { event: 'star-gap-begin', why: 'cloud' },
      { event: 'settling-end', ok: true },
    ]);
    expect(log.understood).toBe(2);
    expect(log.warnings.map((w) => [w.code, w.source?.line])).toEqual([
      ['former-name', 1],
      ['former-name', 2],
    ]);
    expect(log.warnings[0]?.message).toContain('star-gap-begin');
  });

  it('drops a value that is physically impossible, and keeps the event', async () => {
    const log = await read(`{${AT},"event":"cooler","temperature":-400,"setpoint":-10}\n`);
    expect(log.events).toMatchObject([{ event: 'cooler', setpoint: -10 }]);
    expect(log.events[0]).not.toHaveProperty('temperature');
    expect(log.warnings[0]).toMatchObject({ code: 'wrong-field', source: { line: 1 } });
  });

  it('reports a field that such an event does not have, and keeps the event', async () => {
    const log = await read(`{${AT},"event":"slew-end","target":"M 33","pixels":3}\n`);
    expect(log.events).toMatchObject([{ event: 'slew-end', target: 'M 33' }]);
    expect(log.events[0]).not.toHaveProperty('pixels');
    expect(log.warnings).toMatchObject([{ code: 'unknown-field', source: { line: 1 } }]);
    expect(log.warnings[0]?.message).toContain('slew-end has no field "pixels"');
  });

  it('reads back every event it is given, with the fields that such an event has', async () => {
    const event = fc.record(
      {
        at: fc
          .date({ min: new Date('2000-01-01T00:00:00Z'), max: new Date('2099-12-31T23:59:59Z'), noInvalidDate: true })
          .map((date) => date.toISOString()),
        event: fc.constantFrom(...EVENT_NAMES),
        train: fc.constantFrom('heron', 'wren'),
        target: fc.string(),
        seconds: fc.double({ min: 0, max: 86_400, noNaN: true }),
        ok: fc.boolean(),
        temperature: fc.double({ min: -273.15, max: 100, noNaN: true }),
      },
      { requiredKeys: ['at', 'event'] },
    );
    const own = (given: { readonly event: EventName }): object =>
      Object.fromEntries(
        Object.entries(given).filter(
          ([name]) => ['at', 'event', 'train'].includes(name) || hasField(given.event, name as FieldName),
        ),
      );
    await fc.assert(
      fc.asyncProperty(fc.array(event, { maxLength: 20 }), async (events) => {
        const log = await read(events.map((e) => JSON.stringify(e)).join('\n'));
        const isForeign = (e: (typeof events)[number]): boolean => Object.keys(own(e)).length < Object.keys(e).length;
        expect(log.warnings.length > 0).toBe(events.some(isForeign));
        expect(log.warnings.filter((warning) => warning.code !== 'unknown-field')).toEqual([]);
        expect(log.events.map(({ source, atMs, ...rest }) => ({ at: new Date(atMs).toISOString(), ...rest }))).toEqual(
          // JSON has no negative zero.
          events.map((e) => JSON.parse(JSON.stringify(own(e))) as unknown),
        );
      }),
      runs(50),
    );
  });

  it('loses one line to a broken line, and says which', async () => {
    const log = await read(`${BEGIN}\n{"at":"2026-10-14T19:4\n\n[1,2]\n${BEGIN}\n`);
    expect(log.events.map((event) => event.source.line)).toEqual([1, 5]);
    expect(log.warnings.map((warning) => [warning.code, warning.source?.line])).toEqual([
      ['broken-line', 2],
      ['broken-line', 4],
    ]);
    expect(log).toMatchObject({ lines: 4, understood: 2 });
  });

  it('merges the warnings of a log that is broken all through', async () => {
    const log = await read('not json\n'.repeat(5000));
    expect(log.warnings.length).toBe(4);
    expect(log.warnings[3]).toMatchObject({ code: 'broken-line', count: 4997 });
  });

  it.each([
    ['without a time', '{"event":"note"}', 'unreadable-time'],
    ['with a time that has no offset', '{"at":"2026-10-14T19:42:10","event":"note"}', 'unreadable-time'],
    ['with a number for a time', '{"at":1792006930,"event":"note"}', 'unreadable-time'],
    ['without an event', `{${AT}}`, 'no-event'],
  ])('leaves out a line %s', async (_, line, code) => {
    const log = await read(`${line}\n${BEGIN}\n`);
    expect(log.events.length).toBe(1);
    expect(log.warnings).toMatchObject([{ code, source: { line: 1 } }]);
  });

  it('keeps an unknown event as a note and counts it apart', async () => {
    const log = await read(`{${AT},"event":"roof-washed","text":"twice"}\n{${AT},"event":"tea"}\n`);
    expect(log.events.map((event) => [event.event, event.event === 'note' ? event.text : undefined])).toEqual([
      ['note', 'roof-washed: twice'],
      ['note', 'tea'],
    ]);
    expect(log.warnings.map((warning) => warning.code)).toEqual(['unknown-event', 'unknown-event']);
    expect(log).toMatchObject({ lines: 2, understood: 0 });
  });

  it('tells when each line was written, by its train; of notes no more where no more is asked for', async () => {
    const lines = [
      `{${AT},"event":"note","text":"wind"}`,
      BEGIN,
      `{${AT},"event":"note","train":"wren"}`,
      `{${AT},"event":"tea"}`,
      'not json',
    ];
    const [kept, timed] = await withLog(lines.join('\n'), async (root, name) => [
      await readEventLog(root, name, { train: 'heron' }),
      await readEventLog(root, name, { train: 'heron', notes: 'times' }),
    ]);
    expect(timed.events.map(({ event }) => event)).toEqual(['exposure-begin']);
    expect(timed.times).toEqual([
      { file: 'night.log', train: 'heron', atMs: [AT_MS, AT_MS, AT_MS] },
      { file: 'night.log', train: 'wren', atMs: [AT_MS] },
    ]);
    expect(kept.events).toHaveLength(4);
    expect({ ...timed, events: kept.events }).toEqual(kept);
  });

  it('drops a field of the wrong type and keeps the event', async () => {
    const log = await read(`{${AT},"event":"focus-end","ok":"yes","sizeBefore":-1,"sizeAfter":2.1,"position":null}\n`);
    expect(log.events).toEqual([
      { atMs: AT_MS, event: 'focus-end', sizeAfter: 2.1, source: { file: 'heron.jsonl', line: 1 } },
    ]);
    expect(log.warnings.map((warning) => warning.code)).toEqual(['wrong-field', 'wrong-field']);
    expect(log.warnings[0]?.message).toContain('"ok" must be true or false, not "yes"');
  });

  it('says when a field is not known', async () => {
    const log = await read(`{${AT},"event":"cooler","humidity":60,"__proto__":{"ok":true}}\n`);
    expect(log.events[0]).not.toHaveProperty('ok');
    expect(log.warnings.map((warning) => warning.code)).toEqual(['unknown-field', 'unknown-field']);
  });

  it('lets an event name its own train', async () => {
    const log = await read(`{${AT},"event":"note","train":"wren"}\n{${AT},"event":"note","train":7}\n`, 'heron');
    expect(log.events.map((event) => event.train)).toEqual(['wren', 'heron']);
    expect(log.warnings.map((warning) => warning.code)).toEqual(['wrong-field']);
  });

  it('tells a last line that is still being written from a broken one', async () => {
    const log = await read(`${BEGIN}\n{"at":"2026-10-14T19:4`);
    expect(log.events.length).toBe(1);
    expect(log.warnings.map((warning) => warning.code)).toEqual(['unfinished-line']);
  });

  it.each<[string, Uint8Array]>([
    ['a byte-order mark', Buffer.from(`\ufeff${BEGIN}\n`)],
    ['CRLF', Buffer.from(`${BEGIN}\r\n`)],
    ['UTF-16', utf16(`${BEGIN}\n`, 'le', true)],
    ['UTF-16 without a mark', utf16(`${BEGIN}\n`, 'be', false)],
    ['gzip', gzipSync(`${BEGIN}\n`)],
    ['zero bytes', Buffer.from(`\0\0${BEGIN}\n\0\0`)],
    ['a 10 MB line before it', Buffer.from(`{${AT},"event":"note","text":"${'x'.repeat(10_000_000)}"}\n${BEGIN}\n`)],
    ['a second byte-order mark', Buffer.from(`${BEGIN}\n\ufeff${BEGIN}\n`)],
  ])('reads a log with %s', async (_, content) => {
    const log = await read(content);
    const events = log.events.filter((event: EventFields) => event.filter === 'Ha');
    expect(events.length).toBeGreaterThanOrEqual(1);
    expect(events.every((event) => event.atMs === AT_MS)).toBe(true);
    expect(log.warnings.filter((warning) => !['zero-bytes', 'long-line'].includes(warning.code))).toEqual([]);
  });

  it('never throws and accounts for every line, whatever they hold', async () => {
    const line = fc.oneof(
      fc.string(),
      fc.json(),
      fc.constant(BEGIN),
      fc.constant(BEGIN.slice(0, 40)),
      fc.constant(`{${AT},"event":"tea"}`),
    );
    await fc.assert(
      fc.asyncProperty(fc.array(line, { maxLength: 30 }), fc.constantFrom('\n', '\r\n'), async (texts, ending) => {
        const log = await read(texts.join(ending));
        const reported = log.warnings
          .filter((warning) => !['wrong-field', 'unknown-field'].includes(warning.code))
          .reduce((sum, warning) => sum + (warning.count ?? 1), 0);
        expect(log.events.length).toBeLessThanOrEqual(log.lines);
        expect(log.understood + reported).toBeGreaterThanOrEqual(
          log.lines - texts.filter((text) => text.trim() === '').length,
        );
      }),
      runs(100),
    );
  });
});
