import { expect, it } from 'vitest';
import { briefView } from '../../../src/report/html/view/brief.js';

type View = Parameters<typeof briefView>[0];

it('the brief edition gives up the pictures of its first page where room is scarcest', () => {
  const actions = ['a', 'b', 'c'].map((what) => ({ what, title: what }));
  const view = {
    harmed: null,
    totals: null,
    pair: null,
    findings: { first: [], rest: [] },
    tonight: { actions, further: [], goals: [] },
  } as unknown as View;
  const levels = [0, 1, 2, 3, 4].map((level) => briefView(view, level));
  expect(levels.map(({ has }) => has.pictures)).toEqual([true, true, true, true, false]);
  expect(levels.map(({ tonight }) => tonight.actions.length)).toEqual([3, 3, 3, 2, 2]);
});

it('the brief edition keeps the caution beside the advice of its first page, until a finding alone has room for it', () => {
  const caution = 'Mind the mount.';
  const view = {
    harmed: null,
    totals: null,
    pair: null,
    findings: { first: [{ caution }], rest: [] },
    tonight: { actions: [], further: [], goals: [], caution },
  } as unknown as View;
  const cautions = [0, 1, 2, 3, 4].map((level) => briefView(view, level).tonight.caution);
  expect(cautions).toEqual([caution, caution, caution, caution, undefined]);
  const alone = { ...view, findings: { first: [{ caution: '' }], rest: [] } } as unknown as View;
  expect(briefView(alone, 4).tonight.caution).toBe(caution);
});
