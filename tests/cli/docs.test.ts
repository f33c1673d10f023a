/** The commands in the documentation against the program's own help. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, it } from 'vitest';
import { nightledgerIn } from '../support/command-line.js';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const PAGES = [
  'README.md',
  ...readdirSync(join(ROOT, 'docs')).flatMap((f) => (f.endsWith('.md') ? [`docs/${f}`] : [])),
];
const COMMANDS = [
  ...['report', 'replay', 'sort', 'init', 'progress', 'plan'],
  ...['archive add', 'dialect draft', 'dialect check'],
] as const;

interface Named {
  readonly page: string;
  readonly line: string;
  readonly command: string;
  readonly options: readonly string[];
}

const OPTION = /(?<![\w-])--[a-z][a-z-]+/g;

/** Command lines of a page, each with what follows up to the next or to the end of the span of code. */
function commandsOf(page: string): Named[] {
  const text = readFileSync(join(ROOT, page), 'utf8');
  return [...text.matchAll(/\bnightledger ((?:archive |dialect )?[a-z]+)\b([^`\n]*)/g)].flatMap(
    ([line, command = '', rest = '']) =>
      (COMMANDS as readonly string[]).includes(command)
        ? [{ page, line, command, options: [...(rest.split('#')[0] ?? '').matchAll(OPTION)].map(([option]) => option) }]
        : [],
  );
}

describe('the commands in the documentation', () => {
  const named = PAGES.flatMap(commandsOf);
  const options = new Map<string, ReadonlySet<string>>();

  beforeAll(async () => {
    for (const command of COMMANDS) {
      const { stdout } = await nightledgerIn(ROOT, ...command.split(' '), '--help');
      options.set(command, new Set([...stdout.matchAll(OPTION)].map(([option]) => option)));
    }
  });

  it('are found', () => {
    expect(named.length).toBeGreaterThan(40);
    expect(new Set(named.map(({ command }) => command))).toEqual(new Set(COMMANDS));
  });

  it('have only options that the program has', () => {
    const wrong = named.filter((one) => one.options.some((option) => options.get(one.command)?.has(option) !== true));
    expect(wrong.map(({ page, line }) => `${page}: ${line}`)).toEqual([]);
  });

  it('explain every option of report', () => {
    const page = readFileSync(join(ROOT, 'docs/report.md'), 'utf8');
    const unexplained = [...(options.get('report') ?? [])].filter((option) => !page.includes(option));
    expect(unexplained).toEqual(['--help']);
  });
});
