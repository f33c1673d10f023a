import { describe, expect, it } from 'vitest';
import { Messages } from '../../src/cli/messages.js';
import { nightWarnings } from '../../src/cli/night-warnings.js';
import { altered } from '../support/altered.js';
import { namedNight } from '../support/nights.js';

/** The lines that a terminal of a width is given for one step. */
function drawn(columns: number | undefined, label: string, done = 3, total = 4): string {
  const written: string[] = [];
  const terminal = { isTTY: true, columns, write: (text: string) => written.push(text) };
  new Messages(false, terminal, terminal).progress(label, done, total, ' 12 s left');
  return (written[0] ?? '').replace(/^\r/, '').replace('\u001b[K', '');
}

describe('a result', () => {
  it('goes on below where it is a sentence, and stays on its line where it is a path', () => {
    const written: string[] = [];
    const terminal = { isTTY: true, columns: 40, write: (text: string) => written.push(text) };
    const messages = new Messages(false, terminal, terminal);
    messages.tell('2026-11-09: 68 files in place, 12 of them new; stacks/sorted.json');
    messages.say('/home/observer/nights of autumn 2026/report.html');
    expect(written).toEqual([
      '2026-11-09: 68 files in place, 12 of\n  them new; stacks/sorted.json\n',
      '/home/observer/nights of autumn 2026/report.html\n',
    ]);
  });
});

describe('a line of progress', () => {
  it('has a bar of 24 characters where there is room', () => {
    expect(drawn(120, 'reading headers')).toBe(`reading headers ${'━'.repeat(18)}${'·'.repeat(6)} 3/4 12 s left`);
    expect(drawn(undefined, 'reading headers')).toBe(drawn(120, 'reading headers'));
  });

  it('has a shorter one on a narrow console', () => {
    expect(drawn(41, 'reading headers')).toBe(`reading headers ${'━'.repeat(8)}${'·'.repeat(2)} 3/4 12 s left`);
  });

  it.each([80, 40, 30, 20, 8, 2, 1, 0])('never reaches the edge of a console of %d characters', (columns) => {
    expect(drawn(columns, 'measuring the stars of every light').length).toBeLessThanOrEqual(Math.max(0, columns - 1));
  });

  it('is not drawn where nobody looks', () => {
    const written: string[] = [];
    const pipe = { write: (text: string) => written.push(text) };
    new Messages(false, pipe, pipe).progress('reading', 1, 2);
    expect(written).toEqual([]);
  });
});

describe('warnings of one kind', () => {
  it('are printed up to the third, and the others counted with all that they stand for', () => {
    const written: string[] = [];
    const pipe = { write: (text: string) => written.push(text) };
    const lines = [2, 3, 4].map((line) => ({ code: 'odd-line', message: `Line ${line} was left out.` }));
    new Messages(false, pipe, pipe).warnings([...lines, { code: 'odd-line', message: 'and others', count: 4497 }]);
    expect(written).toHaveLength(4);
    expect(written[3]).toBe(
      'nightledger: warning: … and 4\u202f497 more of the kind odd-line; the report lists them\n',
    );
  });
});

describe('warnings of several nights', () => {
  it('name the nights that they concern, where it is not all of them', () => {
    const nightWith = (date: string, ...codes: string[]) => {
      const night = namedNight('two-hours');
      const warnings = codes.map((code) => ({ code, message: `${code} happened` }));
      return { ...altered(night, { gathered: { warnings }, timeline: { warnings: [] }, sky: { warnings: [] } }), date };
    };
    const written: string[] = [];
    const pipe = { write: (text: string) => written.push(text) };
    const reported = nightWarnings([
      nightWith('2026-10-14', 'everywhere', 'first', 'twice'),
      nightWith('2026-10-15', 'everywhere', 'twice'),
      nightWith('2026-10-16', 'everywhere'),
    ]);
    new Messages(false, pipe, pipe).warnings(reported);
    expect(written).toEqual([
      'nightledger: warning: everywhere happened\n',
      'nightledger: warning: night of 2026-10-14: first happened\n',
      'nightledger: warning: nights of 2026-10-14 and 2026-10-15: twice happened\n',
    ]);
    expect(nightWarnings([nightWith('2026-10-14', 'first')])).toMatchObject([{ code: 'first' }]);
    expect(nightWarnings([nightWith('2026-10-14', 'first')])[0]).not.toHaveProperty('nights');
  });
});
