/** Modules of the built program, loaded with and without their compiled code. */
import { existsSync, mkdirSync, mkdtempSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { type CodeByFile, StoredCode, store } from '../../src/cli/code-store.js';
import { CompiledModules } from '../../src/cli/compiled-modules.js';

const place = mkdtempSync(join(tmpdir(), 'nightledger-modules-'));
afterAll(() => rmSync(place, { recursive: true, force: true }));
let programs = 0;

/** A program of some modules, and where its compiled code goes. */
function program(modules: Readonly<Record<string, string>>) {
  const folder = join(place, `program-${programs++}`);
  mkdirSync(folder);
  for (const [name, text] of Object.entries(modules)) writeFileSync(join(folder, name), text);
  const file = join(folder, 'cache', 'report.code');
  const run = (name = 'main.js') => {
    const compiled = new CompiledModules(folder, file);
    const exports = compiled.load(name);
    compiled.keep();
    return exports;
  };
  return { folder, file, run };
}

function readStored(file: string): CodeByFile {
  const code = new StoredCode(file);
  const all = code.all();
  code.close();
  return all;
}

const SUM = { 'main.js': "exports.sum = require('./two.js').two + 1;", 'two.js': 'exports.two = 2;' };

describe('modules of the program', () => {
  it('ask for each other, once each, also in a circle', () => {
    const { run } = program({
      'main.js': "exports.early = 1; exports.other = require('./other.js'); exports.same = require('./other.js');",
      'other.js': "exports.seen = require('./main.js').early;",
    });
    const main = run() as { other: { seen: number }; same: unknown };
    expect(main.other.seen).toBe(1);
    expect(main.same).toBe(main.other);
  });

  it('reach what Node has, know where they are, and may replace what they export', () => {
    const { folder, run } = program({
      'main.js': "module.exports = [require('node:path').basename(__filename), __dirname];",
    });
    expect(run()).toEqual(['main.js', folder]);
  });

  it('say of an error which file and line it comes from', () => {
    const { folder, run } = program({ 'main.js': "\nthrow new Error('here');" });
    let stack = '';
    try {
      run();
    } catch (error) {
      stack = error instanceof Error ? (error.stack ?? '') : '';
    }
    expect(stack).toContain(`${join(folder, 'main.js')}:2:`);
  });

  it('run the same from their compiled code, which is stored once', () => {
    const { file, run } = program(SUM);
    expect(run()).toEqual({ sum: 3 });
    expect([...readStored(file).keys()].sort()).toEqual(['main.js', 'two.js']);
    rmSync(file);
    expect(run()).toEqual({ sum: 3 });
    expect(existsSync(file)).toBe(true);
    utimesSync(file, 1, 1);
    const before = readStored(file);
    expect(run()).toEqual({ sum: 3 });
    expect(readStored(file)).toEqual(before);
  });

  it('are loaded, with those of Node, and their code is compiled only if requested: the engine may have other settings', () => {
    const { folder, file } = program({ ...SUM, 'late.js': "exports.parse = () => require('node:url').parse;" });
    const compiled = new CompiledModules(folder, file);
    let times = 0;
    compiled.around = (work) => {
      times++;
      return work();
    };
    expect(compiled.load('main.js')).toEqual({ sum: 3 });
    expect(times).toBe(2);
    const { parse } = compiled.load('late.js') as { parse: () => unknown };
    expect(times).toBe(3);
    parse();
    expect(times).toBe(4);
    compiled.keep();
    expect(times).toBe(5);
  });

  it('are compiled again when their text changes without changing its length', () => {
    const { folder, run } = program(SUM);
    run();
    writeFileSync(join(folder, 'two.js'), 'exports.two = 7;');
    expect(run()).toEqual({ sum: 8 });
    expect(run()).toEqual({ sum: 8 });
  });

  it('are compiled again where the stored code is not theirs', () => {
    const { file, run } = program(SUM);
    run();
    const junk = [...readStored(file)].map(
      ([name, { stamp, code }]) => [name, { stamp, code: Buffer.from(code).fill(7) }] as const,
    );
    store(file, new Map(junk));
    expect(run()).toEqual({ sum: 3 });
  });

  it('that a later run brings are stored beside the others, those that are gone are dropped', () => {
    const { folder, file, run } = program({ ...SUM, 'more.js': "exports.more = require('./two.js').two;" });
    run();
    rmSync(join(folder, 'main.js'));
    expect(run('more.js')).toEqual({ more: 2 });
    expect([...readStored(file).keys()].sort()).toEqual(['more.js', 'two.js']);
  });
});
