import { describe, expect, it } from 'vitest';
import { legendOf, withLegend } from '../../../src/gather/dialects/draft/legend.js';

describe('the legend in a log’s head', () => {
  it.each([
    ['marks and words', '+ up  - down  > go  < there', '+', 'up'],
    ['marks written to their words', '◇開始 ◆終了(所要秒) ×失敗', '◆', '終了(所要秒)'],
    ['short forms', 'EX: exposure, FOC: focus run, WHL: wheel', 'EX', 'exposure'],
    ['short forms and words in turn', '; XP expose SV saved FC focus FW wheel LS star lost GO goto', 'LS', 'star lost'],
  ])('is read: %s', (_, line, mark, meaning) => {
    expect(legendOf([line]).get(mark)).toBe(meaning);
  });

  it('is none with fewer than three entries', () => {
    expect(legendOf(['site: Cierzo Hill']).size).toBe(0);
  });

  it('puts meanings in front of a wording, for what stands at its head alone', () => {
    const legend = new Map([
      ['EX', 'exposure'],
      ['B', 'begin'],
    ]);
    expect(withLegend('EX B # s', legend)).toBe('exposure begin EX B # s');
    expect(withLegend('one two three EX', legend)).toBe('one two three EX');
  });
});
