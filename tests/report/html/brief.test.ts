import { expect, it } from 'vitest';
import { briefView } from '../../../src/report/html/view/brief.js';

type View = Parameters<typeof briefView>[0];

it('the brief edition gives up the pictures of its first page before what to do tonight', () => {
  const actions = ['a', 'b', 'c'].map((what) => ({ what, title: what }));
  const view = {
    harmed: null,
    totals: null,
    pair: null,
    findings: { first: [], rest: [] },
    tonight: { actions, further: [], goals: [] },
  } as unknown as View;
  const levels = [0, 1, 2, 3].map((level) => briefView(view, level));
  expect(levels.map(({ has }) => has.pictures)).toEqual([true, true, false, false]);
  expect(levels.map(({ tonight }) => tonight.actions.length)).toEqual([3, 3, 3, 2]);
});
