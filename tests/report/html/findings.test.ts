import { describe, expect, it } from 'vitest';
import { viewContext } from '../../../src/report/html/view/context.js';
import { findingsView } from '../../../src/report/html/view/findings.js';
import { namedNight } from '../../support/nights.js';
import { altered } from '../../support/altered.js';

describe('findings on the page', () => {
  it('have an anchor each, though one finding is made for several trains', () => {
    const night = namedNight('twin-night');
    const [first] = night.findings.ranked;
    if (!first) throw new Error('no finding');
    const { first: top, rest } = findingsView(
      viewContext(altered(night, { findings: { ranked: [first, { ...first, costMs: 1 }, { ...first, costMs: 2 }] } })),
    );
    expect([...top, ...rest].map((view) => view.id)).toEqual([first.id, `${first.id}-2`, `${first.id}-3`]);
  });
});
