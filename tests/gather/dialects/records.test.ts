import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { flattenRecord, RECORD_FORMS } from '../../../src/gather/dialects/records/flatten-record.js';
import { brief, read } from './support/read.js';
import { anyText } from '../../support/any-text.js';

function fields(form: (typeof RECORD_FORMS)[number], text: string): Record<string, string> | null {
  const found = flattenRecord(form, text);
  return found === null ? null : Object.fromEntries(found);
}

describe('a record of JSON', () => {
  it('is named by paths, lists by positions, and leaves out what is null', () => {
    expect(fields('json', '{"a":{"b":1,"c":[true,null,"x"]},"d":null}')).toEqual({
      'a.b': '1',
      'a.c.0': 'true',
      'a.c.2': 'x',
    });
  });

  it('is the first object, whatever stands around it, braces in strings aside', () => {
    expect(fields('json', '12:00 {"a":"}{","b":2}\n  ],\n  {')).toEqual({ a: '}{', b: '2' });
    expect(fields('json', '{"a":1')).toBeNull();
    expect(fields('json', 'no object')).toBeNull();
  });

  it('may be an array, named by its places', () => {
    expect(fields('json', '[12.5, "north", "exposure", {"s": 60}]')).toEqual({
      '0': '12.5',
      '1': 'north',
      '2': 'exposure',
      '3.s': '60',
    });
    // A stamp in brackets, or one value, is none.
    expect(fields('json', '[12:00:01] {"a":1}')).toEqual({ a: '1' });
    expect(fields('json', '[12]')).toBeNull();
  });
});

describe('a record of pairs', () => {
  it('takes quotes off and keeps the words outside', () => {
    expect(fields('pairs', 'guider: ra=-0.31 note="two words" f=\'x\'')).toEqual({
      ra: '-0.31',
      note: 'two words',
      f: 'x',
      text: 'guider:',
    });
    expect(fields('pairs', 'words alone')).toBeNull();
  });
});

describe('a record of tags', () => {
  it('has the attributes of the first element and the texts of inner ones, closed or not', () => {
    expect(fields('tags', '<pose jj="1.5" moment="a"><rang>1</rang>\n  <cible>NGC 281</cible>')).toEqual({
      tag: 'pose',
      jj: '1.5',
      moment: 'a',
      rang: '1',
      cible: 'NGC 281',
    });
    expect(fields('tags', '<f><size before="3" after="2"/></f>')).toEqual({
      tag: 'f',
      inner: 'size',
      'inner.before': '3',
      'inner.after': '2',
    });
    expect(fields('tags', 'a < b')).toBeNull();
    expect(fields('tags', '</pose>')).toBeNull();
  });

  it('is a closing tag that says more than that', () => {
    expect(fields('tags', '</pose kdo="wren" rang="7">')).toEqual({ tag: '/pose', kdo: 'wren', rang: '7' });
  });

  it('is about the first inner element that holds nothing where none has attributes', () => {
    expect(fields('tags', '<jot at="1.5"><quelled/></jot>')).toEqual({
      tag: 'jot',
      at: '1.5',
      quelled: 'true',
      inner: 'quelled',
    });
    expect(fields('tags', '<jot><urgent/><veer to="M 33"/></jot>')).toEqual({
      tag: 'jot',
      urgent: 'true',
      inner: 'veer',
      'inner.to': 'M 33',
    });
  });
});

describe('a record of a block', () => {
  it('reads dots, colons, equals signs, arrows, wide blanks and trees', () => {
    expect(
      fields(
        'blocks',
        'exposure\n  who ....... heron\n├ seconds: 300\n└ filter = Ha\n  goes -> home\n  deed     noted\n  gained 3.9 C',
      ),
    ).toEqual({
      who: 'heron',
      seconds: '300',
      filter: 'Ha',
      goes: 'home',
      deed: 'noted',
      gained: '3.9 C',
      text: 'exposure',
    });
  });
});

describe('records', () => {
  it('never throw, of any form and any text', () => {
    fc.assert(
      fc.property(fc.constantFrom(...RECORD_FORMS), anyText({ maxLength: 300 }), (form, text) => {
        const found = flattenRecord(form, text);
        expect(found === null || found.size > 0).toBe(true);
      }),
    );
  });

  it('may have several lines', async () => {
    const log = await read(
      `dialect: 1
time: { pattern: '{epoch}' }
entries: { start: '^  \\{' }
records: { as: json, time: at }
lines:
  - { when: { what: '^open$' }, event: exposure-begin, fields: { filter: '{with.filter}' } }
`,
      '[\n  {\n    "at": 1791918682,\n    "what": "open",\n    "with": {\n      "filter": "Ha"\n    }\n  },\n  {\n    "at": 1791918700,\n    "what": "open"\n  }\n]\n',
    );
    expect(brief(log)).toEqual([
      '2026-10-13T19:11:22.000Z exposure-begin {"filter":"Ha"}',
      '2026-10-13T19:11:40.000Z exposure-begin',
    ]);
  });

  it('may be blocks below a stamp', async () => {
    const log = await read(
      `dialect: 1
time: { pattern: '* {epoch}' }
entries: stamp
records: { as: blocks }
lines:
  - { when: { does: '^opens$' }, event: exposure-begin, fields: { seconds: seconds } }
`,
      'head\n* 1791918682\n   does ..... opens\n   seconds .. 300\n\n* 1791918990\n   does ..... rests\n',
    );
    expect(log.events).toHaveLength(1);
    expect(log.events[0]).toMatchObject({ event: 'exposure-begin', seconds: 300 });
  });
});
