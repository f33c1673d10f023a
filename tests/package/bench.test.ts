/** The benchmarks run: small, for that they do, not for what they find. */
import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { inFull } from '../support/runs.js';
import { cleanUp, tempFolder } from '../support/temp-folder.js';

const BENCH = fileURLToPath(new URL('../../bench', import.meta.url));
const run = (script: string, args: readonly string[], env: NodeJS.ProcessEnv = {}) =>
  execFileSync(process.execPath, [join(BENCH, script), ...args], {
    encoding: 'utf8',
    env: { ...process.env, ...env },
  });

cleanUp();

/** The one that needs most: it bundles stages and a thread's program, and calls other tools. */
const OF_LOGS = ['--lines', '1000', '--rows', '1000', '--runs', '1', '--cold-runs', '1', '--share', '0.2'];

describe('a benchmark', () => {
  it('bundles stages that there are', () => {
    const bundled = readdirSync(BENCH, { recursive: true, encoding: 'utf8' })
      .filter((file) => file.endsWith('.mjs'))
      .flatMap((file) => readFileSync(join(BENCH, file), 'utf8').match(/await bundle\([^;]+\);/g) ?? [])
      .flatMap((call) => [...call.matchAll(/'([\w/-]+\.ts)'/g)].map((match) => match[1] ?? ''));
    expect(bundled.length).toBeGreaterThan(6);
    expect(bundled.filter((path) => !existsSync(join(BENCH, '../src', path)))).toEqual([]);
  });

  it.each(inFull([OF_LOGS], []))(
    'bundles the stages it measures, and says of each goal whether it is met',
    (...args) => {
      const said = run('logs/run.mjs', args);
      const lines = said.split('\n').filter((line) => line.includes('goal ≤'));
      expect(lines).toHaveLength(4);
      for (const line of lines) expect(line).toMatch(/: (met|MISSED|not measured)$/);
    },
  );

  it('is one of a run that ends with a table of all goals, and is named by --only', () => {
    const said = run('run.mjs', ['--only', 'start', '--runs', '1']);
    expect(said).toContain('== all goals');
    expect(said).toMatch(/[01] of 1 goals met/);
    expect(() => run('run.mjs', ['--only', 'none-of-this-name'])).toThrow(/there are archive, headers/);
  });

  it('imports nothing from the compiled program but its start files', () => {
    const scripts = readdirSync(BENCH, { recursive: true, encoding: 'utf8' }).filter((file) => file.endsWith('.mjs'));
    const imported = scripts.flatMap((file) =>
      [...readFileSync(join(BENCH, file), 'utf8').matchAll(/dist\/([\w./-]+\.js)/g)].map((match) => match[1]),
    );
    expect(new Set(imported)).toEqual(new Set(['cli.js', 'star-worker.js']));
  });
});

describe('the table of goals', () => {
  it('counts what is met, missed and not measured', async () => {
    const file = join(tempFolder(), 'results.jsonl');
    const results = [
      { what: 'a', value: 1.234, processor: 1.5, goal: 1.35, unit: '× node -e 0', state: 'met' },
      { what: 'bb', value: 250, processor: null, goal: 200, unit: 'MB', state: 'MISSED' },
      {
        what: 'c',
        value: null,
        processor: null,
        goal: 1,
        unit: '× cfitsio, which is not installed',
        state: 'not measured',
      },
    ];
    writeFileSync(file, results.map((result) => JSON.stringify(result)).join('\n'));
    const { tableOf } = (await import('../../bench/support/goal.mjs' as string)) as {
      tableOf: (path: string) => string;
    };
    expect(tableOf(file).split('\n')).toEqual([
      '    by the clock  by processor    goal',
      'a           1.23          1.50  ≤ 1.35  × node -e 0                        met',
      'bb           250             –   ≤ 200  MB                                 MISSED',
      'c              –             –     ≤ 1  × cfitsio, which is not installed  not measured',
      '1 of 3 goals met',
    ]);
  });
});
