import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { CAUSE_KINDS, LOSS_CAUSES } from '../../src/model/index.js';
import { FINDINGS } from '../../src/findings/index.js';
import { ROOT } from './imports.js';

const read = (path: string): string => readFileSync(join(ROOT, path), 'utf8');
const inFolder = (folder: string): string[] =>
  readdirSync(join(ROOT, folder)).flatMap((name) => (name.endsWith('.md') ? [`${folder}/${name}`] : []));
const FOR_ENGINEERS = ['DEVELOPERS.md', ...inFolder('docs/dev')];
const GUIDES = ['README.md', ...FOR_ENGINEERS];
const PAGES = [...GUIDES, 'CHANGELOG.md', 'CONTRIBUTING.md', ...inFolder('docs')];

/** Characters of an entry in the changelog, and words of all of it. */
const LONGEST_CHANGE = 450;
const MOST_WORDS_OF_CHANGES = 3000;

/** A page without its blocks of code. */
const proseOf = (page: string): string => read(page).replaceAll(/^```[\s\S]*?^```$/gm, '');

/** Anchors of a page's headings as code hosts derive them: lower case, punctuation dropped, blanks as hyphens. */
const anchorsOf = (page: string): string[] =>
  [...proseOf(page).matchAll(/^#+ (.+)$/gm)].map((heading) =>
    heading[1]!
      .toLowerCase()
      .replaceAll(/[^\p{L}\p{N}\s_-]/gu, '')
      .replaceAll(' ', '-'),
  );

describe('the guides', () => {
  const scripts = (JSON.parse(read('package.json')) as { scripts: Record<string, string> }).scripts;

  it('name only npm scripts that exist', () => {
    const named = GUIDES.flatMap((guide) => [...read(guide).matchAll(/npm run ([a-z-]+)/g)].map((m) => m[1]!));
    expect(named.length).toBeGreaterThan(10);
    expect(named.filter((name) => !(name in scripts))).toEqual([]);
  });

  it.each(PAGES)('%s names only paths that exist', (guide) => {
    const named = [
      ...read(guide).matchAll(/`((?:src|tests|schema|docs|templates|bench|sample-sessions|\.ci)(?:\/[\w.-]+)*\/?)`/g),
    ].map((m) => m[1]!);
    expect(named.filter((path) => !path.includes('NAME') && !existsSync(join(ROOT, path)))).toEqual([]);
  });

  it('name only modules that exist', () => {
    const modules = ['src', 'scripts', 'bench'].flatMap((folder) =>
      readdirSync(join(ROOT, folder), { recursive: true, encoding: 'utf8' }).map((path) => `/${path}`),
    );
    const isThere = (name: string): boolean =>
      existsSync(join(ROOT, name)) || modules.some((path) => path.replaceAll('\\', '/').endsWith(`/${name}`));
    const named = FOR_ENGINEERS.flatMap((guide) =>
      [...read(guide).matchAll(/`([\w./-]+\.(?:ts|mjs|cjs|wat))`/g)].map((m) => m[1]!),
    ).filter((name) => !name.includes('NAME') && !name.endsWith('.test.ts'));
    expect(named.length).toBeGreaterThan(60);
    expect(named.filter((name) => !isThere(name))).toEqual([]);
  });

  it.each(PAGES)('%s links only to pages and headings that exist', (page) => {
    const links = [...proseOf(page).matchAll(/\]\((?!http)([^)#]*)(?:#([^)]+))?\)/g)];
    const broken = links.filter(([, path = '', anchor]) => {
      const target = path === '' ? page : join(dirname(page), path);
      return !existsSync(join(ROOT, target)) || (anchor !== undefined && !anchorsOf(target).includes(anchor));
    });
    expect(broken.map(([link]) => link)).toEqual([]);
  });

  it('every page of the documentation is linked from another', () => {
    const linked = new Set(
      PAGES.flatMap((page) =>
        [...proseOf(page).matchAll(/\]\((?!http)([^)#]+)/g)].flatMap((link) => {
          const target = join(dirname(page), link[1]!);
          return target === page ? [] : [target];
        }),
      ),
    );
    expect([...inFolder('docs'), ...inFolder('docs/dev')].filter((page) => !linked.has(page))).toEqual([]);
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

  it('the changelog stays short enough to be read: a sentence or two for each change', () => {
    const lines = read('CHANGELOG.md').split('\n');
    expect(lines.filter((line) => line.length > LONGEST_CHANGE)).toEqual([]);
    expect(lines.join(' ').split(/\s+/).length).toBeLessThan(MOST_WORDS_OF_CHANGES);
    expect(lines.filter((line, i) => line.startsWith('- ') && lines.indexOf(line) !== i)).toEqual([]);
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
