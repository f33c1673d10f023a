import { join } from 'node:path';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readRecord } from '../../src/record/index.js';
import { writeFits } from '../support/fits-writer.js';
import { writeFiles } from '../support/generator/samples.js';
import { cleanUp, tempFolder } from '../support/temp-folder.js';
import { nightledger } from './support/child.js';

cleanUp();

const RIG = `site: { name: x, latitude: 40, longitude: -1, elevation: 100 }
trains: [ { id: heron, frames: [ "*.fits" ], logs: [ { files: "*.jsonl" }, { files: "*.log", dialect: d.yaml } ] } ]
guiding: { source: off-axis, train: heron, logs: [ "guiding.csv" ] }
targets: [ { name: NGC 281, ra: "00:52:59", dec: "+56:37:19" } ]
`;
const DIALECT = `dialect: 1
time: { pattern: "{year}-{month}-{day} {hour}:{minute}:{second}", zone: utc }
lines:
  - { when: "start (?<seconds>\\\\S+)", event: exposure-begin }
  - { when: "stop", event: exposure-end }
`;
const NUMBERS = ['1e8', '1e13', '1e308', '-1', '86400.5'];

describe('numbers that cannot be', () => {
  it('are reported with file and line, and the night is still reported, in bounded time and memory', async () => {
    const session = tempFolder();
    const log = [
      '{"at":"2026-10-14T21:00:00Z","event":"exposure-begin","seconds":60,"target":"NGC 281","filter":"Ha"}',
      '{"at":"2026-10-14T21:01:00Z","event":"exposure-end"}',
      ...NUMBERS.map((n, i) => `{"at":"2026-10-14T22:0${i}:00Z","event":"exposure-begin","seconds":${n}}`),
      '{"at":"2026-10-14T23:00:00Z","event":"cooler","temperature":-300,"setpoint":1e9}',
      '{"at":"9999-12-31T23:59:59Z","event":"exposure-begin","seconds":60}',
      '{"at":"0001-01-01T00:00:00Z","event":"exposure-begin","seconds":60}',
      '{"at":"2026-10-14T23:30:00Z","event":"exposure-begin"}',
      '{"at":"2027-11-14T23:30:00Z","event":"exposure-end"}',
    ];
    writeFiles(
      session,
      new Map<string, string | Buffer>([
        ['rig.yaml', RIG],
        ['d.yaml', DIALECT],
        ['heron.jsonl', log.join('\n')],
        ['heron.log', '2026-10-14 23:45:00 start 1e13\n9876-10-14 23:46:00 start 60\n'],
        ['guiding.csv', 'at,ra_arcsec,dec_arcsec\n2026-10-14T21:00:00Z,1e300,0\n8888-01-01T00:00:00Z,0.1,0.1\n'],
        [
          'absurd.fits',
          writeFits({
            width: 4,
            height: 4,
            bitpix: 16,
            cards: [
              ['IMAGETYP', 'LIGHT'],
              ['DATE-OBS', '2026-10-14T21:30:00'],
              ['EXPTIME', 1e12],
              ['CCD-TEMP', -9999],
              ['FOCALLEN', 1e30],
              ['XPIXSZ', 1e30],
              ['FOCUSPOS', 1e300],
              ['GAIN', 1e300],
              ['OBJECT', 'NGC 281'],
            ],
          }),
        ],
      ]),
    );
    const out = join(tempFolder(), 'report');
    const run = await nightledger(['report', '.', '--out', out, '--no-pdf'], { cwd: session, seconds: 60 });
    expect(run).toMatchObject({ status: 0, withinBounds: true });
    const record = readFileSync(join(out, 'night.json'), 'utf8');
    for (const place of [
      'heron.jsonl:3',
      'heron.jsonl:8',
      'heron.jsonl:9',
      'heron.log:1',
      'heron.log:2',
      'guiding.csv:2',
    ])
      expect(record, place).toContain(`"source": "${place}"`);
    for (const card of ['EXPTIME', 'CCD-TEMP', 'FOCALLEN', 'FOCUSPOS', 'GAIN']) expect(record).toContain(`${card} is `);
  });

  it.each([
    ['night', '9999-01-01'],
    ['night', '0001-01-01'],
    ['night', '2026-13-40'],
    ['night', 'x'.repeat(100_000)],
    ['headersOnly', 1e308],
  ])('spoil a record whose %s is %.20j, and its reader says why', (key, value) => {
    const sound: unknown = JSON.parse(
      readFileSync(new URL('../../sample-sessions/autumn-archive/2026-10-20.json', import.meta.url), 'utf8'),
    );
    const spoilt = { ...(sound as object), [key]: value };
    expect(readRecord(JSON.stringify(sound)).ok).toBe(true);
    expect(readRecord(JSON.stringify(spoilt))).toMatchObject({ ok: false, state: 'damaged' });
  });
});
