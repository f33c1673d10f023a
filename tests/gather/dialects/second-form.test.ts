import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';

describe('a stamp behind a word that differs', () => {
  it('is one form, and the lines of seldom words are read by it, too', () => {
    const lines = Array.from({ length: 60 }, (_, i) => {
      const level = i % 20 === 7 ? 'WARN ' : i % 3 === 0 ? 'DEBUG' : 'INFO ';
      const at = new Date(Date.UTC(2026, 9, 14, 20, i, 10)).toISOString().slice(0, 19);
      return `${level} ${at} ${i % 3 === 0 ? 'air 12 C' : i % 20 === 7 ? 'guide star lost' : 'shutter open 300 s'}`;
    });
    const { report } = drafted(lines);
    expect(report.stamp?.more ?? []).toEqual([]);
    expect(report.stamp?.coverage).toBe(1);
  });
});
