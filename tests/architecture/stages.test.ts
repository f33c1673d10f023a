/**
 * What a stage may read. The lines marked below must be type errors: `tsc` reports a marked line that is none.
 */
import { describe, expect, it } from 'vitest';
import type { Night } from '../../src/model/index.js';
import { follow, journey, stage } from '../../src/stages.js';

const sky = { window: null } as unknown as Night['sky'];

describe('a stage', () => {
  it('is given the parts it names and nothing else: reading another is a type error', async () => {
    const seen: string[] = [];
    const nosy = stage('sky', ['span'], (parts) => {
      seen.push(...Object.keys(parts));
      // @ts-expect-error: the timeline is not among the parts that this stage names
      expect(parts.timeline).toBeUndefined();
      return sky;
    });
    await nosy.run({ span: { startMs: 0, endMs: 1 }, timeline: {} as Night['timeline'] });
    expect(seen).toEqual(['span']);
  });

  it('cannot take the part of another from its arguments', () => {
    // @ts-expect-error: the accounts are not among the parts that this stage names
    stage('sky', ['span'], ({ accounts }) => (accounts === undefined ? sky : sky));
  });

  it('gives the part it says, and no other', () => {
    // @ts-expect-error: a stage that gives the sky may not give a timeline
    stage('sky', ['timeline'], ({ timeline }) => timeline);
  });

  it('stands after what it needs', async () => {
    const early = stage('accounts', ['sky'], () => ({}) as Night['accounts']);
    const late = stage('sky', ['span'], () => sky);
    // @ts-expect-error: the accounts need the sky, which comes after them
    const stages = journey(early, late);
    await expect(follow(stages, { span: { startMs: 0, endMs: 1 } })).rejects.toThrow(/not known: sky/);
    expect(journey(late, early)).toEqual([late, early]);
  });
});
