import { expect, it } from 'vitest';
import { NOTHING_SAID } from '../../../src/gather/dialects/draft/classify/classify.js';
import type { Kind } from '../../../src/gather/dialects/draft/kinds/kind.js';
import type { Plan } from '../../../src/gather/dialects/draft/rule-of.js';
import { withoutTooMany } from '../../../src/gather/dialects/draft/too-many.js';
import type { EventName } from '../../../src/model/index.js';
import { drafted } from './support/drafted.js';

const AT = Date.UTC(2026, 9, 14, 20);
const iso = (ms: number): string => new Date(ms).toISOString();
const eventsOf = (lines: readonly string[]): string[] => [
  ...new Set(drafted(lines).report.rules.flatMap((rule) => rule.events.map(({ event }) => event))),
];

it('takes no row for the turn of a wheel that states a minute each time', () => {
  const lines = Array.from({ length: 60 }, (_, i) =>
    JSON.stringify({ at: iso(AT + i * 70_000), what: 'zz', edge: 'end', filter: 'Ha', took: 60.3 + (i % 5) / 10 }),
  );
  expect(eventsOf(lines).filter((event) => event.startsWith('filter'))).toEqual([]);
});

const kindOf = (wording: string, count: number): Kind => ({
  count,
  firstLine: 1,
  examples: [],
  summary: wording,
  wording,
  lead: 0,
  hints: '',
  slots: [],
  lines: [],
  atMs: [],
  when: () => wording,
});
const planOf = (event: EventName, wording: string, count: number): Plan => ({
  kind: kindOf(wording, count),
  verdict: { ...NOTHING_SAID, event },
  event,
  parts: [],
});

it('takes what is over, whatever it is, for nothing rarer than exposures', () => {
  const plans = [
    planOf('exposure-begin', 'exposure begins', 72),
    planOf('filter-begin', 'filter begins', 5),
    planOf('filter-end', 'done', 122),
    planOf('dither-end', 'dither done', 90),
  ];
  expect(withoutTooMany(plans).map(({ event }) => event)).toEqual([
    'exposure-begin',
    'filter-begin',
    null,
    'dither-end',
  ]);
  // A log without exposures says nothing of how often a wheel turns.
  expect(withoutTooMany(plans.slice(1)).map(({ event }) => event)).toEqual([
    'filter-begin',
    'filter-end',
    'dither-end',
  ]);
});
