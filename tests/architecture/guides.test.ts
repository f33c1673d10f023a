import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { CAUSE_KINDS, LOSS_CAUSES } from '../../src/model/index.js';
import { FINDINGS } from '../../src/findings/index.js';
import { ROOT } from './imports.js';

const read = (path: string): string => readFileSync(join(ROOT, path), 'utf8');
const GUIDES = ['README.md', 'DEVELOPERS.md'];

describe('the guides', () => {
  const scripts = (JSON.parse(read('package.json')) as { scripts: Record<string, string> }).scripts;

  it.each(GUIDES)('%s names only npm scripts that exist', (guide) => {
    const named = [...read(guide).matchAll(/npm run ([a-z-]+)/g)].map((m) => m[1]!);
    expect(named.length).toBeGreaterThan(0);
    expect(named.filter((name) => !(name in scripts))).toEqual([]);
  });

  it.each(GUIDES)('%s names only paths that exist', (guide) => {
    const named = [
      ...read(guide).matchAll(/`((?:src|tests|schema|docs|templates|bench|sample-sessions|\.ci)(?:\/[\w.-]+)*\/?)`/g),
    ].map((m) => m[1]!);
    const links = [...read(guide).matchAll(/\]\(((?!http)[^)#]+)\)/g)].map((m) => m[1]!);
    expect([...named, ...links].filter((path) => !path.includes('NAME') && !existsSync(join(ROOT, path)))).toEqual([]);
  });

  it('the continuous integration runs exactly the README’s test command', () => {
    const commands = read('.ci/run')
      .split('\n')
      .filter((l) => l !== '' && !l.startsWith('#') && !l.startsWith('set ') && !l.startsWith('cd '));
    expect(commands).toEqual(['npm test']);
    expect(read('README.md')).toContain('npm test');
  });

  it('the workflow runs the same command on three systems and three versions of Node', () => {
    const workflow: unknown = parse(read('.github/workflows/ci.yml'));
    expect(workflow).toMatchObject({
      jobs: {
        test: {
          strategy: {
            matrix: { system: ['ubuntu-latest', 'windows-latest', 'macos-latest'], node: [20, 22, 24] },
          },
          steps: expect.arrayContaining([{ run: 'npm test' }]),
        },
        coverage: { steps: expect.arrayContaining([{ run: 'npm run coverage' }]) },
      },
    });
    expect(scripts).toHaveProperty('coverage');
  });

  it('the changelog has a heading for the version that is not released yet', () => {
    expect(read('CHANGELOG.md')).toMatch(/^## \d+\.\d+\.\d+: unreleased$/m);
  });

  it('every runtime package is named in the lock file without a download address', () => {
    expect(read('package-lock.json')).not.toMatch(/"resolved": "https?:/);
  });
});

describe('every extension point has one file, one registry line, one test of the same name', () => {
  const namesIn = (folder: string, leaveOut: readonly string[]): string[] =>
    readdirSync(join(ROOT, folder))
      .filter((f) => f.endsWith('.ts') && !leaveOut.includes(f))
      .map((f) => f.replace(/\.ts$/, ''))
      .sort();

  it('loss causes', () => {
    const ids = LOSS_CAUSES.map((c) => c.id);
    expect([...ids].sort()).toEqual(namesIn('src/model/judging', ['index.ts', 'cause.ts', 'facts.ts', 'leeway.ts']));
    expect(ids).toEqual(CAUSE_KINDS);
    for (const id of ids) expect(existsSync(join(ROOT, `tests/model/judging/${id}.test.ts`)), id).toBe(true);
  });

  it('findings', () => {
    for (const { id } of FINDINGS) {
      expect(existsSync(join(ROOT, `src/findings/${id}.ts`)), id).toBe(true);
      expect(existsSync(join(ROOT, `tests/findings/${id}.test.ts`)), id).toBe(true);
    }
    expect(new Set(FINDINGS.map((f) => f.id)).size).toBe(FINDINGS.length);
  });
});
