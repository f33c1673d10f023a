import { describe, expect, it } from 'vitest';
import { ConfigError, NO_BOOK, parseGoals } from '../../src/config/index.js';

const problemsOf = (yaml: string): readonly string[] => {
  try {
    parseGoals('goals.yaml', yaml);
  } catch (error) {
    if (error instanceof ConfigError) return error.problems;
    throw error;
  }
  return [];
};

describe('the goals file', () => {
  it('says what is wanted, in all the ways of the rig file', () => {
    const { book, warnings } = parseGoals(
      'goals.yaml',
      [
        'targets:',
        '  - { name: NGC 281, aliases: [ Sh2-184 ], ra: "00:52:59", dec: "+56:37:19", goals: { Ha: 12h, OIII: 1h30m } }',
        '  - { name: M 33, goalRatio: { total: 30h, parts: { L: 3, R: 1 } }, goalsPerTrain: { wren: { L: 10 } } }',
        '  - { name: IC 1396, goalTotal: 40h }',
        'filters: { Ha: [ H-alpha ] }',
        'narrowband: [ Duo ]',
      ].join('\n'),
    );
    expect(warnings).toEqual([]);
    expect(book.targets).toMatchObject([
      {
        name: 'NGC 281',
        aliases: ['Sh2-184'],
        decDeg: expect.closeTo(56.6219, 3),
        goals: { hours: { Ha: 12, OIII: 1.5 } },
      },
      { name: 'M 33', goals: { ratio: { totalHours: 30, parts: { L: 3, R: 1 } }, perTrain: { wren: { L: 10 } } } },
      { name: 'IC 1396', goals: { totalHours: 40 } },
    ]);
    expect(book.filterAliases.get('h-alpha')).toBe('Ha');
    expect(book.narrowband.has('duo')).toBe(true);
  });

  it('may be empty, and may give names without goals', () => {
    expect(parseGoals('goals.yaml', '').book).toEqual(NO_BOOK);
    expect(parseGoals('goals.yaml', 'targets: [ { name: A, aliases: [ B ] } ]').book.targets[0]).not.toHaveProperty(
      'goals',
    );
  });

  it.each([
    ['targets: [ { goals: { Ha: 12h } } ]', 'goals.yaml:1: targets#1.name must be text'],
    [
      'targets:\n  - name: A\n    goals: { Ha: soon }',
      'goals.yaml:3: targets#1.goals.Ha must be hours, such as 12h, 1h30m or 90m; got "soon"',
    ],
    [
      'targets:\n  - name: A\n    goalRatio: { parts: { L: 3 } }',
      'goals.yaml:3: targets#1.goalRatio.total must be hours',
    ],
    [
      'targets:\n  - name: A\n    goalRatio: { total: 3h, parts: { L: 0 } }',
      'targets#1.goalRatio.parts must have a part above 0',
    ],
    [
      'targets: [ { name: A }, { name: B, aliases: [ a ] } ]',
      'goals.yaml:1: targets#2.aliases#1 "a" already names targets#1',
    ],
    ['[ 1, 2 ]', 'goals.yaml: must be a mapping'],
    ['targets: [ {', 'goals.yaml:1: not valid YAML'],
  ])('tells file, line and remedy of %j', (yaml, message) => {
    expect(problemsOf(yaml).join('\n')).toContain(message);
  });

  it('tells mistakes of every kind at once', () => {
    const wrong = 'targets:\n  - { name: A, goal: { Ha: 3h } }\n  - { name: a, goals: { Ha: soon } }';
    expect(problemsOf(wrong)).toEqual([
      expect.stringContaining('goals.yaml:2: targets#1.goal is not a key of the goals file; keys here are name'),
      expect.stringContaining('goals.yaml:3: targets#2.goals.Ha must be hours'),
      expect.stringContaining('goals.yaml:3: targets#2.name "a" already names targets#1'),
    ]);
  });

  it('warns of keys it does not know', () => {
    const { warnings } = parseGoals('goals.yaml', 'goals: {}\ntargets:\n  - { name: A, goal: { Ha: 3h } }');
    expect(warnings.map((w) => [w.source?.line, w.message.split(' ')[0]])).toEqual([
      [1, 'goals'],
      [3, 'targets#1.goal'],
    ]);
  });
});
