import { describe, expect, it } from 'vitest';
import { tookUnit } from '../../../src/gather/dialects/draft/group-names.js';
import type { Slot } from '../../../src/gather/dialects/draft/kinds/kind.js';

function slot(path: string | null, before: readonly string[], after = ''): Slot {
  return { path, before, after, type: 'number', values: ['0.5', '1.2'], perLine: ['0.5', '1.2'] };
}

describe('seconds of arc', () => {
  it.each([
    ['a field', slot('off.arc_seconds', ['seconds', 'arc', 'off'])],
    ['a field in Japanese', slot('ずれ秒角', ['ずれ秒角'])],
    ['a unit', slot(null, ['off', 'by'], 'arcsec')],
  ])('are no length of time in %s', (_, one) => expect(tookUnit(one)).toBeNull());

  it.each([
    ['a field', slot('wait.seconds', ['seconds', 'wait'])],
    ['a field in Japanese', slot('所要秒', ['所要秒'])],
    ['a unit', slot(null, ['after'], 's')],
  ])('and seconds are in %s', (_, one) => expect(tookUnit(one)).toBe(1));
});
