import { describe, expect, it } from 'vitest';
import { columnsOf, wrapped } from '../../src/cli/wrap.js';

const PROSE = '  heron: Ha, 51 × 420 s; focus at 22:14, 23:44, 01:14 and 02:44, for 5.9 h or 6.5 h in all';

describe('prose on a terminal', () => {
  it.each([40, 50, 80])('is broken between words within %i columns, with what goes on further in', (columns) => {
    const lines = wrapped(PROSE, columns).split('\n');
    expect(lines.length).toBeGreaterThan(1);
    for (const line of lines) expect(line.length).toBeLessThanOrEqual(columns);
    for (const line of lines.slice(1)) expect(line).toMatch(/^ {4}\S/);
    expect(lines.map((line) => line.trim()).join(' ')).toBe(PROSE.trim());
  });

  it('keeps a figure with its unit', () => {
    for (let columns = 30; columns < 90; columns++) expect(wrapped(PROSE, columns)).not.toMatch(/^ *(?:h|s)\b/m);
  });

  it('keeps a designation whole', () => {
    const text =
      'free (6.4 h): M 33 not worth slewing to, then in too much moonlight; NGC 281 and IC 1396 below their limit';
    for (let columns = 30; columns < 90; columns++) expect(wrapped(text, columns)).not.toMatch(/^ *\d+\b/m);
  });

  // East Asian Width, Unicode Standard Annex 11: letters of class W and F take two columns, combining marks none.
  it('counts wide letters as two columns, and breaks between them where there are no blanks', () => {
    expect(columnsOf('望遠鏡')).toBe(6);
    expect(columnsOf('Ｈα')).toBe(3);
    expect(columnsOf('e\u0301te\u0301 é ×″')).toBe(8);
    const text = '  北アメリカ星雲: 望遠鏡の焦点を合わせてから、日没後すぐに撮影を始めてください。 Recoverable: 1.1 h';
    for (const columns of [30, 40, 50]) {
      const lines = wrapped(text, columns).split('\n');
      for (const line of lines) expect(columnsOf(line)).toBeLessThanOrEqual(columns);
      expect(columnsOf(lines[0] ?? '')).toBeGreaterThan(columns - 4);
      expect(
        lines
          .map((line) => line.trim())
          .join('')
          .replaceAll(' ', ''),
      ).toBe(text.replaceAll(' ', ''));
    }
    expect(wrapped('see /home/望遠鏡/観測所の記録を全部保存する場所/report.html', 40)).toContain(
      '/home/望遠鏡/観測所の記録を全部保存する場所/report.html',
    );
  });

  it('leaves tables, files and short lines as they are, and a word that is longer than the line whole', () => {
    for (const text of [
      'gave events                237   99.6 %  and a remark that goes beyond the fortieth column',
      'short\nlines\n',
    ])
      expect(wrapped(text, 40)).toBe(text);
    expect(wrapped(PROSE, undefined)).toBe(PROSE);
    expect(wrapped(PROSE, 12)).toBe(PROSE);
    const path = `/${'long'.repeat(20)}/report.html`;
    expect(wrapped(`see ${path}`, 40)).toBe(`see\n  ${path}`);
  });
});
