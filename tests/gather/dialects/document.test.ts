import { describe, expect, it } from 'vitest';
import { draftDialect, loadDialect, readDialectLog, readSample } from '../../../src/gather/dialects/index.js';
import { documentRecords, documentTree } from '../../../src/gather/dialects/document/document-records.js';
import { withLog } from '../lines/support/temp-log.js';
import { brief, read } from './support/read.js';

const records = (text: string, ...times: string[]): unknown[] => {
  const tree = documentTree(text);
  return tree === null ? [] : documentRecords(tree, new Set(times)).map((line): unknown => JSON.parse(line));
};

describe('the records of a document', () => {
  it('are elements with a time, and know what encloses them', () => {
    const xml = `<?xml version="1.0"?><!-- UTC --><night place="hill"><target name="M 33">
      <pose rig="a" from="21:00:00"><asked seconds="300"/><end at="21:05:00" early="no">done &amp; saved</end></pose>
      <shot><opened>21:06:00</opened><note>fine</note></shot></target></night>`;
    expect(records(xml, 'from', 'at', 'opened')).toEqual([
      { tag: 'night', place: 'hill', comment: 'UTC' },
      { tag: 'target', name: 'M 33' },
      { tag: 'pose', rig: 'a', from: '21:00:00', 'asked.seconds': '300', in: { name: 'M 33' } },
      { tag: 'end', at: '21:05:00', early: 'no', text: 'done & saved', in: { tag: 'pose', rig: 'a', name: 'M 33' } },
      { tag: 'shot', opened: '21:06:00', note: 'fine', in: { name: 'M 33' } },
    ]);
  });

  it('are objects of lists, by the names of these', () => {
    const json = JSON.stringify({
      site: 'hill',
      targets: [{ name: 'M 33', poses: [{ t: 1, s: 300, calm: { t: 9, ok: true } }], guiding: { rests: [{ t: 4 }] } }],
      samples: [
        [1, 0.5],
        [2, -0.5],
      ],
    });
    expect(records(json, 't', '0')).toEqual([
      { tag: '', site: 'hill' },
      { tag: 'targets', name: 'M 33' },
      { tag: 'poses', t: '1', s: '300', in: { name: 'M 33' } },
      { tag: 'calm', t: '9', ok: 'true', in: { tag: 'poses', s: '300', name: 'M 33' } },
      { tag: 'rests', t: '4', in: { tag: 'guiding', name: 'M 33' } },
      { tag: 'samples', 0: '1', 1: '0.5' },
      { tag: 'samples', 0: '2', 1: '-0.5' },
    ]);
  });

  it('are none in what is no document', () => {
    for (const text of ['', 'a < b', '{"a":1}\n{"a":2}', '<a>', '<a/><b/>', '{', '[[['])
      expect(documentTree(text)).toBeNull();
    expect(documentTree('<a>'.repeat(1000))).toBeNull();
    expect(documentTree(`${'['.repeat(5000)}${']'.repeat(5000)}`)).not.toBeUndefined();
  });
});

/** A night in XML whose elements name their times differently and stand in each other. */
function xmlNight(): string {
  const at = (s: number): string => new Date(Date.UTC(2026, 9, 14, 20) + s * 1000).toISOString().slice(0, 19);
  const poses = Array.from({ length: 14 }, (_, i) => {
    const t = 200 + i * 340;
    return `<exposure seconds="300" filter="L" opened="${at(t)}">
      <closed at="${at(t + 300)}"/><saved at="${at(t + 303)}">m33_${i}.fits</saved></exposure>
    <dither from="${at(t + 305)}" to="${at(t + 308)}" pixels="3.${i % 10}"><settling from="${at(t + 308)}" to="${at(t + 320)}"/></dither>`;
  });
  return `<night zone="UTC">\n<target name="M 33">\n<slew from="${at(0)}" to="${at(40)}"/>\n${poses.join('\n')}\n</target>\n</night>\n`;
}

describe('a document', () => {
  it('is drafted and read with all of its events', async () => {
    const log = await withLog(
      xmlNight(),
      async (root, file) => {
        const { yaml } = draftDialect(await readSample(root, file));
        expect(yaml).toContain('entries: document');
        const { dialect, warnings } = loadDialect('draft.yaml', yaml);
        if (dialect === null) throw new Error(JSON.stringify(warnings));
        return readDialectLog(root, file, dialect, { zone: 'utc' });
      },
      'night.xml',
    );
    const counts = new Map<string, number>();
    for (const { event } of log.events) counts.set(event, (counts.get(event) ?? 0) + 1);
    expect(Object.fromEntries(counts)).toEqual({
      'slew-begin': 1,
      'slew-end': 1,
      'exposure-begin': 14,
      'exposure-end': 14,
      'frame-saved': 14,
      'dither-begin': 14,
      'dither-end': 14,
      'settling-begin': 14,
      'settling-end': 14,
    });
    expect(new Date(log.events.find(({ event }) => event === 'exposure-end')?.atMs ?? 0).toISOString()).toBe(
      '2026-10-14T20:08:20.000Z',
    );
  });

  it('has its records named by the fields with their times', async () => {
    const rules = `dialect: 1
time: { pattern: "{epoch}" }
entries: document
records: { as: json, time: { first: [begin, t] } }
lines:
  - { when: { tag: '^poses$' }, event: [exposure-begin, exposure-end], at: { exposure-end: end } }
  - { when: { tag: '^calm$', in.tag: '^moves$' }, event: settling-end }
`;
    const text = JSON.stringify({
      poses: [{ begin: 1792010000, end: 1792010300 }],
      moves: [{ t: 1792010310, calm: { t: 1792010320 } }],
    });
    expect(brief(await read(rules, text))).toEqual([
      '2026-10-14T20:33:20.000Z exposure-begin',
      '2026-10-14T20:38:20.000Z exposure-end',
      '2026-10-14T20:38:40.000Z settling-end',
    ]);
    const { dialect, warnings } = loadDialect('a.yaml', rules.replace('as: json, ', 'as: tags, '));
    expect(dialect).toBeNull();
    expect(warnings.map(({ message }) => message).join()).toContain('records: { as: json');
  });
});
