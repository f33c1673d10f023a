import { describe, expect, it } from 'vitest';
import { counted, decimal, fileSize, firm, listed, percent, UNKNOWN, whole } from '../../src/vocabulary/index.js';

describe('numbers for reading', () => {
  it('puts a dash where nothing is known', () => {
    for (const value of [null, undefined, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(decimal(value, 1)).toBe(UNKNOWN);
      expect(percent(value)).toBe(UNKNOWN);
    }
  });

  it('uses a true minus, and none before a zero', () => {
    expect(decimal(-12.34, 1)).toBe('−12.3');
    expect(decimal(-0.04, 1)).toBe('0.0');
  });

  it('does not round a small share to nothing', () => {
    expect(percent(0.004)).toBe('0.4 %');
    expect(percent(0.0002)).toBe('< 0.1 %');
    expect(percent(0.0)).toBe('0 %');
    expect(percent(0.816)).toBe('82 %');
  });

  it('groups thousands and counts things', () => {
    expect(whole(1234567)).toBe('1\u202f234\u202f567');
    expect(counted(1, 'frame')).toBe('1 frame');
    expect(counted(0, 'frame')).toBe('0 frames');
    expect(counted(2, 'stretch', 'stretches')).toBe('2 stretches');
  });

  it('lists with an and', () => {
    expect(listed([])).toBe('');
    expect(listed(['a'])).toBe('a');
    expect(listed(['a', 'b', 'c'])).toBe('a, b and c');
  });

  it('gives sizes in steps of a thousand', () => {
    expect([999, 5760, 12_400_000, 3_210_000_000].map(fileSize)).toEqual(['999 B', '5.8 kB', '12.4 MB', '3.21 GB']);
  });

  // SI Brochure, 9th edition, 5.4.3: a space between number and unit; that no line ends there is common practice.
  it('keeps figure and unit on one line, and words apart', () => {
    const shown = (text: string): string => firm(text).replaceAll('\u00a0', '_');
    expect(shown('lost 13 % in 4 min 25 s, at 9.4 °C')).toBe('lost 13_% in 4_min_25_s, at 9.4_°C');
    expect(shown('5 h 04 min of 12 stars, 3 sharp')).toBe('5_h_04_min of 12 stars, 3 sharp');
  });
});
