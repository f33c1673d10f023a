import { describe, expect, it } from 'vitest';
import { edgesOf, importEdges, readSource, sourceFiles, stageOf } from './imports.js';

/** Files at the top of src that join the stages. */
const JOINTS = [
  'pipeline.ts',
  'stages.ts',
  'sky-model.ts',
  'again.ts',
  'pictures.ts',
  'share.ts',
  'share-nights.ts',
  'output.ts',
  'archive.ts',
  'archive-nights.ts',
  'header-import.ts',
  'log-doctor.ts',
  'log-draft.ts',
  'log-notes.ts',
  'log-zone.ts',
  'log-surroundings.ts',
  'look-ahead.ts',
  'merge-sessions.ts',
  'plan-ahead.ts',
  'plan-sky.ts',
  'plan-trains.ts',
  'write-plan.ts',
  'sort.ts',
  'night-end.ts',
];

function isAllowed(from: string, to: string): boolean {
  const a = stageOf(from);
  const b = stageOf(to);
  if (a === b) return true;
  if (a === 'vocabulary') return false;
  // The words are the same for all.
  if (b === 'vocabulary') return a !== 'files' && a !== 'cli.ts';
  if (a === 'model' || a === 'files') return false;
  // How the disk is touched is the same for all.
  if (b === 'files') return a !== 'cli.ts';
  if (a === 'config') return b === 'model';
  if (a === 'cli.ts') return b === 'cli';
  if (a === 'cli')
    return [
      'pipeline.ts',
      'again.ts',
      'archive.ts',
      'write-plan.ts',
      'log-doctor.ts',
      'sort.ts',
      'night-end.ts',
      'model',
      'config',
    ].includes(b);
  if (a === 'public') return ['model', 'record', 'merge-sessions.ts'].includes(b);
  if (JOINTS.includes(a)) return b !== 'cli' && b !== 'cli.ts';
  return b === 'model' || b === 'config';
}

describe('the reading of imports', () => {
  it('sees static, type-only, re-exporting, side-effect and dynamic imports', () => {
    const text = `
      import { a } from './a.js';
      import type { B } from '../model/b.js';
      export * from './c.js';
      import './d.js';
      const e = await import('./e.js');
      import {
        f,
      } from 'pkg';
      // import './not.js';
    `;
    expect(edgesOf('sky/x.ts', text).map((e) => e.to)).toEqual([
      'sky/a.ts',
      'model/b.ts',
      'sky/c.ts',
      'sky/d.ts',
      'sky/e.ts',
      'pkg',
    ]);
  });
});

describe('the walls', () => {
  const edges = importEdges();

  it('stand: the vocabulary imports nothing, stages import it, the model and the configuration, the pipeline joins them, the command line imports the pipeline', () => {
    const breaches = edges.filter((e) => !e.isPackage && !isAllowed(e.from, e.to)).map((e) => `${e.from} → ${e.to}`);
    expect(breaches).toEqual([]);
  });

  it('resolve: every relative import names a file that exists', () => {
    const files = new Set(sourceFiles());
    expect(edges.filter((e) => !e.isPackage && !files.has(e.to)).map((e) => `${e.from} → ${e.to}`)).toEqual([]);
  });

  it('hold the ephemeris to the sky', () => {
    expect([...new Set(edges.filter((e) => e.to === 'astronomy-engine').map((e) => stageOf(e.from)))]).toEqual(['sky']);
  });

  it('hold the browser and the canvas to the report', () => {
    const users = edges.filter((e) =>
      ['puppeteer-core', 'chart.js', 'chartjs-node-canvas', '@napi-rs/canvas', 'handlebars'].includes(
        e.to
          .split('/')
          .slice(0, e.to.startsWith('@') ? 2 : 1)
          .join('/'),
      ),
    );
    expect(new Set(users.map((e) => stageOf(e.from)))).toEqual(new Set(['report']));
  });

  it('enclose no cycle', () => {
    const graph = new Map<string, string[]>();
    for (const e of edges) if (!e.isPackage) graph.set(e.from, [...(graph.get(e.from) ?? []), e.to]);
    const done = new Set<string>();
    const cycles: string[] = [];
    const visit = (file: string, path: string[]): void => {
      const at = path.indexOf(file);
      if (at >= 0) cycles.push([...path.slice(at), file].join(' → '));
      if (at >= 0 || done.has(file)) return;
      for (const next of graph.get(file) ?? []) visit(next, [...path, file]);
      done.add(file);
    };
    for (const file of graph.keys()) visit(file, []);
    expect(cycles).toEqual([]);
  });

  it('leave printing to the command line', () => {
    const printing = /\bconsole\.|process\.(stdout|stderr)\b/;
    const offenders = sourceFiles().filter(
      (f) => !['cli', 'cli.ts'].includes(stageOf(f)) && printing.test(readSource(f)),
    );
    expect(offenders).toEqual([]);
  });

  it('leave the clock to the command line', () => {
    const offenders = sourceFiles().filter(
      (f) => stageOf(f) !== 'cli' && /\bDate\.now\(\)|new Date\(\)/.test(readSource(f)),
    );
    expect(offenders).toEqual([]);
  });
});
