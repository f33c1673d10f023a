import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import type { EventFields } from '../../../src/model/index.js';
import { utf16 } from '../lines/support/temp-log.js';
import { brief, codes, read } from './support/read.js';

const STAMPED = `dialect: 1
time: { pattern: "{year}-{month}-{day} {hour}:{minute}:{second}", zone: utc }
`;

describe('a text log', () => {
  it('gives events with captured fields, the first matching pattern winning', async () => {
    const log = await read(
      `${STAMPED}lines:
  - { when: 'opens for (?<seconds>[\\d.]+) s through (?<filter>\\w+)', event: exposure-begin, fields: { target: NGC 281 } }
  - { when: 'opens', event: note, fields: { text: other } }
ignore: ['^fan']
`,
      '2026-10-14 21:03:04.25 opens for 300.0 s through Ha\n2026-10-14 21:03:05 opens the roof\n2026-10-14 21:03:06 fan on\nunknown\n\n',
      { train: 'heron' },
    );
    expect(brief(log)).toEqual([
      '2026-10-14T21:03:04.250Z exposure-begin heron {"target":"NGC 281","seconds":300,"filter":"Ha"}',
      '2026-10-14T21:03:05.000Z note heron {"text":"other"}',
    ]);
    expect(log).toMatchObject({ lines: 4, understood: 3, warnings: [] });
    expect(log.events.map((event) => event.source)).toEqual([
      { file: 'night.log', line: 1 },
      { file: 'night.log', line: 2 },
    ]);
    expect(log.events.map((event) => event.rule)).toEqual([
      { file: 'tern.yaml', line: 4 },
      { file: 'tern.yaml', line: 5 },
    ]);
  });

  it('converts fields: formulas, templates, maps, words for yes and no, decimal commas', async () => {
    const log = await read(
      `${STAMPED}decimal: ","
constants: { step: 0.5 }
lines:
  - when: 'focus (?<n>\\d+) size (?<a>[\\d,]+)>(?<b>[\\d,]+) slot (?<slot>\\d) (?<ok>\\w+) by (?<who>\\w+)'
    event: focus-end
    fields: { position: n * step + 1, sizeBefore: a, sizeAfter: b, why: "by {who}", filter: { from: "{slot}", map: { 1: L, 2: Ha }, else: none } }
`,
      '2026-10-14 21:03:04 focus 1000 size 3,5>2,25 slot 2 Failed by hand\n2026-10-14 21:03:05 focus 1000 size 3>2 slot 9 done by hand\n2026-10-14 21:03:06 focus 1 size 3>2 slot 9 maybe by hand\n',
    );
    expect(brief(log)).toEqual([
      '2026-10-14T21:03:04.000Z focus-end {"position":501,"sizeBefore":3.5,"sizeAfter":2.25,"why":"by hand","filter":"Ha","ok":false}',
      '2026-10-14T21:03:05.000Z focus-end {"position":501,"sizeBefore":3,"sizeAfter":2,"why":"by hand","filter":"none","ok":true}',
      '2026-10-14T21:03:06.000Z focus-end {"position":1.5,"sizeBefore":3,"sizeAfter":2,"why":"by hand","filter":"none"}',
    ]);
    expect(codes(log)).toEqual(['wrong-field']);
  });

  it('derives what begins or ends from how long it took', async () => {
    const log = await read(
      `${STAMPED}lines:
  - { when: 'exposure finished, took (?<took>[\\d.]+) s', event: exposure-end, lasted: took, fields: { seconds: took } }
  - { when: 'settles for (?<m>\\d+) ms', event: [dither-end, settling-begin], lasts: m / 1000 }
  - { when: 'turned in (?<t>[\\d:]+)', event: filter-end, lasted: duration(t) }
  - { when: 'odd ?(?<took>[\\d.]*)', event: slew-end, lasted: took }
`,
      '2026-10-14 21:10:00 exposure finished, took 12.3456 s\n2026-10-14 21:11:00 settles for 2500 ms\n2026-10-14 21:12:00 turned in 1:05\n2026-10-14 21:13:00 odd 9999999\n2026-10-14 21:14:00 odd \n',
    );
    expect(brief(log)).toEqual([
      '2026-10-14T21:09:47.654Z exposure-begin {"seconds":12.3456}',
      '2026-10-14T21:10:00.000Z exposure-end {"seconds":12.3456}',
      '2026-10-14T21:11:00.000Z dither-end',
      '2026-10-14T21:11:00.000Z settling-begin',
      '2026-10-14T21:11:02.500Z settling-end',
      '2026-10-14T21:10:55.000Z filter-begin',
      '2026-10-14T21:12:00.000Z filter-end',
      '2026-10-14T21:13:00.000Z slew-end',
      '2026-10-14T21:14:00.000Z slew-end',
    ]);
    expect(codes(log)).toEqual(['wrong-duration', 'wrong-duration']);
  });

  it('places what its line tells late, and counts a length from the time that the line states', async () => {
    const log = await read(
      `${STAMPED}lines:
  - { when: 'downloaded in (?<took>[\\d.]+) s', event: exposure-end, ago: took }
  - { when: 'begun (?<t>[\\d:]+), (?<n>\\d+) s', event: [exposure-begin, frame-saved], at: { exposure-begin: t }, lasts: n }
`.replace('time: {', "time: { caught: '{hour}:{minute}:{second}',"),
      '2026-10-14 21:10:02 downloaded in 1.9 s\n2026-10-14 21:20:10 saved, begun 21:15:03, 300 s\n',
    );
    expect(brief(log)).toEqual([
      '2026-10-14T21:10:00.100Z exposure-end',
      '2026-10-14T21:15:03.000Z exposure-begin',
      '2026-10-14T21:20:10.000Z frame-saved',
      '2026-10-14T21:20:03.000Z exposure-end',
    ]);
  });

  it('closes what is open where a log tells beginnings alone', async () => {
    const log = await read(
      `${STAMPED}lines:
  - { when: 'state (?<t>\\w+) exposing', event: exposure-begin, train: "{t}", closes: [filter-end, focus-end] }
  - { when: 'state (?<t>\\w+) turning', event: filter-begin, train: "{t}", closes: exposure-end }
  - { when: 'state (?<t>\\w+) idle', event: note, train: "{t}", closes: [exposure-end, filter-end] }
`,
      ['heron turning', 'heron exposing', 'wren exposing', 'heron idle', 'heron idle']
        .map((text, i) => `2026-10-14 21:10:0${i} state ${text}`)
        .join('\n'),
    );
    expect(brief(log).map((line) => line.slice(17))).toEqual([
      '00.000Z filter-begin heron',
      '01.000Z filter-end heron',
      '01.000Z exposure-begin heron',
      '02.000Z exposure-begin wren',
      '03.000Z exposure-end heron',
      '03.000Z note heron',
      '04.000Z note heron',
    ]);
  });

  it('tells trains by capture, map, rule, file name, dialect and rig, in that order', async () => {
    const lines =
      'lines: [{ when: "from (?<train>\\\\w+)", event: note }, { when: set, event: note, train: wren }, { when: none, event: note }]\n';
    const log =
      '2026-10-14 21:10:00 from left\n2026-10-14 21:10:01 from robin\n2026-10-14 21:10:02 set\n2026-10-14 21:10:03 none\n';
    const trains = async (head: string, train?: string): Promise<(string | undefined)[]> =>
      (
        await read(
          `${STAMPED}${head}${lines}`,
          log,
          train === undefined ? { name: 'left_7.log' } : { name: 'left_7.log', train },
        )
      ).events.map((event) => event.train);
    expect(await trains('trains: { left: heron }\n')).toEqual(['heron', 'robin', 'wren', undefined]);
    expect(await trains('', 'rig')).toEqual(['left', 'robin', 'wren', 'rig']);
    expect(await trains('train: tit\n', 'rig')).toEqual(['left', 'robin', 'wren', 'tit']);
    expect(await trains('trains: { left: heron }\ntrain: { file: "^(?<train>[a-z]+)_" }\n', 'rig')).toEqual([
      'heron',
      'robin',
      'wren',
      'heron',
    ]);
  });

  it('joins the lines of an entry', async () => {
    const text =
      '2026-10-14 21:10:00 shutter\n  event: opened\n  filter: Ha\n2026-10-14 21:15:00 shutter\n  event: closed\n\n2026-10-14 21:16:00 fan\n  speed: 3\n';
    const lines =
      "lines: [{ when: 'shutter\\s+event: opened\\s+filter: (?<filter>\\w+)', event: exposure-begin }, { when: 'shutter\\s+event: closed', event: exposure-end }]\nignore: ['^fan']\n";
    for (const entries of ['entries: stamp\n', "entries: { start: '^\\d{4}-' }\n"]) {
      const log = await read(STAMPED + entries + lines, text);
      expect(brief(log)).toEqual([
        '2026-10-14T21:10:00.000Z exposure-begin {"filter":"Ha"}',
        '2026-10-14T21:15:00.000Z exposure-end',
      ]);
      expect(log).toMatchObject({ lines: 7, understood: 7, warnings: [] });
    }
  });

  it('takes constants, dates and sections in entries, too', async () => {
    const log = await read(
      `dialect: 1
time: { pattern: "{hour}:{minute}:{second}", zone: utc, date: { header: '^Day (?<date>\\S+)', pattern: "{day}.{month}.{year}" } }
entries: stamp
constants: { who: { when: 'hand of (?<value>\\w+)' } }
lines: [{ when: 'opened', event: exposure-begin, fields: { target: "{who}" } }]
`,
      'Day 14.10.2026\nhand of dusk\n21:00:00 door\n opened\n',
    );
    expect(brief(log)).toEqual(['2026-10-14T21:00:00.000Z exposure-begin {"target":"dusk"}']);
  });

  it('gives a line without a stamp the time before it only when asked', async () => {
    const rules = 'lines: [{ when: "opened", event: exposure-begin }]\n';
    const log = '2026-10-14 21:10:00 door\nopened\n';
    expect(codes(await read(STAMPED + rules, log))).toEqual(['unreadable-time']);
    expect(brief(await read(STAMPED.replace('zone: utc', 'zone: utc, carry: true') + rules, log))).toEqual([
      '2026-10-14T21:10:00.000Z exposure-begin',
    ]);
  });

  it('reads a time that the pattern itself catches, and a stamp anywhere in the line', async () => {
    const caught = await read(
      `${STAMPED}lines: [{ when: 'opened \\((?<time>[^)]*)\\)', event: exposure-begin }]\n`,
      'door opened (2026-10-14 21:10:00) again\n',
    );
    expect(brief(caught)).toEqual(['2026-10-14T21:10:00.000Z exposure-begin']);
    const anywhere = await read(
      `${STAMPED.replace('zone: utc', 'zone: utc, at: anywhere')}lines: [{ when: '^(?<train>\\w+)> .* opened', event: exposure-begin }]\n`,
      'heron> <2026-10-14 21:10:00> opened\n',
    );
    expect(brief(anywhere)).toEqual(['2026-10-14T21:10:00.000Z exposure-begin heron']);
  });

  it('tries several time patterns in order', async () => {
    const log = await read(
      `dialect: 1
time: { pattern: ["{year}-{month}-{day} {hour}:{minute}:{second}", "{epoch} "], zone: utc }
lines: [{ when: opened, event: exposure-begin }]
`,
      '2026-10-14 21:10:00 opened\n1792012500 opened\n',
    );
    expect(brief(log)).toEqual(['2026-10-14T21:10:00.000Z exposure-begin', '2026-10-14T21:15:00.000Z exposure-begin']);
  });

  it("says when no line of a log is the dialect's", async () => {
    const log = await read(`${STAMPED}lines: [{ when: opened, event: exposure-begin }]\n`, 'one\ntwo\n');
    expect(codes(log)).toEqual(['nothing-matched']);
    expect(log.understood).toBe(0);
  });

  it.each<[string, (text: string) => Uint8Array]>([
    ['a byte-order mark', (text) => Buffer.from(`\ufeff${text}`)],
    ['CRLF', (text) => Buffer.from(text.replaceAll('\n', '\r\n'))],
    ['UTF-16', (text) => utf16(text, 'be', true)],
    ['gzip', (text) => gzipSync(text)],
    ['zero bytes', (text) => Buffer.from(text.replace('chatter', '\0\0'))],
    ['a 10 MB line', (text) => Buffer.from(text.replace('chatter', 'x'.repeat(10_000_000)))],
  ])('is read with %s', async (_, encode) => {
    const log = await read(
      `${STAMPED}lines: [{ when: 'Fokus geöffnet (?<text>.+)$', event: note }]\n`,
      encode(
        '2026-10-14 21:10:00 Fokus geöffnet früh\n2026-10-14 21:10:01 chatter\n2026-10-14 21:10:02 Fokus geöffnet spät\n',
      ),
    );
    expect(log.events.map((event: EventFields) => event.text)).toEqual(['früh', 'spät']);
    expect(log.events.map((event) => event.source.line)).toEqual([1, 3]);
  });
});

describe('a CSV log', () => {
  const CSV = `dialect: 1
decimal: ","
time: { pattern: "{day}/{month}/{year} {hour}:{minute}:{second}", zone: utc }
csv: { delimiter: ";", header: [Fecha, Hora, Qué, Seg], time: [Fecha, Hora] }
`;

  it('finds its header row anywhere, joins the time columns and matches cells', async () => {
    const log = await read(
      `${CSV}lines:
  - { when: { Qué: '^toma (?<filter>\\w+)$' }, event: exposure-begin, fields: { seconds: Seg } }
  - { when: { Qué: '^fin$' }, event: exposure-end }
ignore: [{ Qué: '^aire' }, '^#']
`,
      '# observatorio\nFecha; Hora ;Seg;Qué;Nota\n14/10/2026;21:10:00;300,5;toma Ha;x\n14/10/2026;21:15:00;;fin;\n14/10/2026;21:15:01;;aire 3;\n14/10/2026;21:15:02;;otra;\nresto\n',
    );
    expect(brief(log)).toEqual([
      '2026-10-14T21:10:00.000Z exposure-begin {"seconds":300.5,"filter":"Ha"}',
      '2026-10-14T21:15:00.000Z exposure-end',
    ]);
    expect(log).toMatchObject({ lines: 7, understood: 5, warnings: [] });
  });

  it('follows a header row that comes again in another order', async () => {
    const log = await read(
      `${CSV}lines: [{ when: { Qué: '^(?<text>.+)$' }, event: note }]\n`,
      'Fecha;Hora;Qué;Seg\n14/10/2026;21:10:00;uno;\nQué;Seg;Hora;Fecha\ndos;;21:11:00;14/10/2026\n',
    );
    expect(brief(log)).toEqual([
      '2026-10-14T21:10:00.000Z note {"text":"uno"}',
      '2026-10-14T21:11:00.000Z note {"text":"dos"}',
    ]);
  });

  it('reads quoted cells, and columns named by the dialect', async () => {
    const log = await read(
      `dialect: 1
time: { pattern: "{epoch}" }
csv: { delimiter: ",", columns: [at, what, note], time: at }
lines: [{ when: { what: "^say$" }, event: note, fields: { text: "{note}" } }]
`,
      '1792012500,say,"a, ""b"""\n1792012501,"say",plain\n1792012502,say,\n',
    );
    expect(log.events.map((event: EventFields) => event.text)).toEqual(['a, "b"', 'plain', undefined]);
  });

  it('gives guiding samples in arcseconds from pixels and a scale picked up on the way', async () => {
    const log = await read(
      `dialect: 1
time: { pattern: "{elapsed}", zone: utc }
csv: { delimiter: ",", header: [secs, x, y], time: secs }
constants: { scale: { when: 'scale=(?<value>[\\d.]+)' } }
sections: [{ begin: 'run opens (?<time>.+)$', base: "{year}-{month}-{day} {hour}:{minute}:{second}", end: 'run closes' }]
guiding: { ra: x * scale, dec: -y * scale }
`,
      'scale=2\nrun opens 2026-10-14 21:00:00\nsecs,x,y\n0.5,0.1,0.2\n2.25,-0.3,0\nrun closes\nscale=3\nrun opens 2026-10-14 22:00:00\n1,0.1,0.2\n2,,\n',
    );
    const series = log.guiding;
    expect(Array.from(series?.atMs ?? [], (atMs) => new Date(atMs).toISOString().slice(11, 23))).toEqual([
      '21:00:00.500',
      '21:00:02.250',
      '22:00:01.000',
    ]);
    expect(Array.from(series?.raArcsec ?? [])).toEqual([0.2, -0.6, 0.30000000000000004]);
    expect(Array.from(series?.decArcsec ?? [])).toEqual([-0.4, -0, -0.6000000000000001]);
    expect(Array.from(series?.snr ?? [])).toEqual([NaN, NaN, NaN]);
    expect(codes(log)).toEqual(['unreadable-sample']);
  });
});

describe('the guiding samples of a text log', () => {
  it('come from the lines that a pattern tells', async () => {
    const log = await read(
      `${STAMPED}guiding: { when: 'err (?<x>\\S+) (?<y>\\S+) snr (?<s>\\S+)', ra: x, dec: y, snr: s }\n`,
      '2026-10-14 21:00:00.5 err 0.25 -1 snr 30\n2026-10-14 21:00:02 err a b snr 2\nother\n',
    );
    expect(log.guiding?.raArcsec).toEqual(Float64Array.of(0.25));
    expect(log.guiding?.snr).toEqual(Float64Array.of(30));
    expect(codes(log)).toEqual(['unreadable-sample']);
  });
});

describe('a record that states a value for others', () => {
  it('is an event nevertheless', async () => {
    const log = await read(
      `dialect: 1
time: { pattern: '{epoch}' }
records: { as: pairs, time: t }
constants: { scale: { when: 'scale=(?<value>[\\d.]+)' } }
lines:
  - { when: { job: '^guiding$' }, event: guiding-begin }
guiding: { when: { ra: '.', dec: '.' }, ra: 'ra * scale', dec: 'dec * scale' }
`,
      't=1791918000 job=guiding scale=2\nt=1791918003 ra=0.5 dec=-0.25\n',
    );
    expect(log.events.map(({ event }) => event)).toEqual(['guiding-begin']);
    expect([...(log.guiding?.raArcsec ?? [])]).toEqual([1]);
    expect([...(log.guiding?.decArcsec ?? [])]).toEqual([-0.5]);
  });
});
