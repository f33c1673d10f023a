import { describe, expect, it } from 'vitest';
import { mayTell } from '../../../src/gather/dialects/draft/classify/said-only.js';
import type { EventName } from '../../../src/model/index.js';

const own = (...said: [EventName, number][]): ReadonlyMap<EventName, number> => new Map(said);

describe('what a line may be taken for', () => {
  it('is what its words name, or what goes with it, where they are sure', () => {
    const sure = own(['exposure-end', 5.2]);
    expect(mayTell('exposure-end', sure)).toBe(true);
    expect(mayTell('frame-saved', sure)).toBe(true);
    expect(mayTell('focus-end', sure)).toBe(false);
    expect(mayTell('settling-end', own(['dither-end', 4.6]))).toBe(true);
    expect(mayTell('filter-begin', own(['guiding-begin', 4.2], ['hold-begin', 0.5]))).toBe(false);
  });

  it('is anything where they are not', () => {
    expect(mayTell('focus-end', own(['exposure-end', 3]))).toBe(true);
    expect(mayTell('focus-end', own())).toBe(true);
  });
});
