import { describe, expect, it } from 'vitest';
import {
  ACCOUNT_PRIORITY,
  ACCOUNTS,
  beginOf,
  CAUSE_KINDS,
  causeRow,
  DEFAULT_RULES,
  endOf,
  EVENT_NAMES,
  eventLabel,
  FORMER_EVENTS,
  GUIDING_OFF_KINDS,
  isEventName,
  MOUNT_KINDS,
  PIXEL_CAUSES,
  POINTING_KINDS,
  RULE_NAMES,
  RULES,
  SPAN_NAMES,
  TWILIGHTS,
} from '../../src/vocabulary/index.js';

describe('events', () => {
  it('pair up: every span is NAME-begin and NAME-end', () => {
    for (const span of SPAN_NAMES) {
      expect(endOf(`${span}-begin`)).toBe(`${span}-end`);
      expect(beginOf(`${span}-end`)).toBe(`${span}-begin`);
    }
    expect(beginOf('exposure-abort')).toBe('exposure-begin');
    expect(new Set(EVENT_NAMES).size).toBe(EVENT_NAMES.length);
  });

  it('have words of their own', () => {
    expect(new Set(EVENT_NAMES.map(eventLabel)).size).toBe(EVENT_NAMES.length);
    expect(eventLabel('star-gap-begin')).toBe('guide star lost begins');
  });

  it('had other names, none of which is a name today', () => {
    for (const [former, now] of FORMER_EVENTS) {
      expect(isEventName(former)).toBe(false);
      expect(isEventName(now)).toBe(true);
    }
  });
});

describe('activities', () => {
  it('belong together by what they do', () => {
    expect(MOUNT_KINDS).toEqual(['slew', 'centre', 'flip', 'dither-move', 'settling']);
    expect(POINTING_KINDS).toEqual(['slew', 'centre', 'flip']);
    expect(GUIDING_OFF_KINDS).toEqual(['guiding-rest', 'star-gap', 'guiding-stopped']);
  });
});

describe('accounts', () => {
  it('have one rank each, open shutters first', () => {
    expect([...ACCOUNT_PRIORITY].sort()).toEqual([...ACCOUNTS].sort());
    expect(ACCOUNT_PRIORITY.slice(0, 4)).toEqual(['lost', 'doubtful', 'kept', 'hold']);
    expect(ACCOUNT_PRIORITY.at(-1)).toBe('unexplained');
  });
});

describe('rules', () => {
  it('have a key of their own and a default within their bounds', () => {
    expect(new Set(RULE_NAMES.map((name) => RULES[name].key)).size).toBe(RULE_NAMES.length);
    for (const name of RULE_NAMES) {
      expect(DEFAULT_RULES[name]).toBeGreaterThanOrEqual(RULES[name].low);
      expect(DEFAULT_RULES[name]).toBeLessThanOrEqual(RULES[name].high);
    }
  });

  it('are each used by a cause', () => {
    const used = new Set(CAUSE_KINDS.flatMap((kind) => causeRow(kind).rules));
    expect(RULE_NAMES.filter((name) => !used.has(name))).toEqual([]);
  });
});

describe('causes', () => {
  it('that rest on pixels alone are four', () => {
    expect(PIXEL_CAUSES).toEqual(['no-sky', 'trailed', 'doubled', 'swollen', 'dimmed', 'other-filter']);
  });
});

describe('twilights', () => {
  it('end where the Explanatory Supplement to the Astronomical Almanac has them', () => {
    expect(Object.values(TWILIGHTS).map((t) => t.sunAltitudeDeg)).toEqual([-6, -12, -18]);
  });
});
