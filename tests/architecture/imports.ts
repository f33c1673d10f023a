/**
 * The imports of every source file: static, type-only, re-exporting, side-effect and dynamic.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve, sep } from 'node:path';
import { fileURLToPath } from 'node:url';

export const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const SRC = join(ROOT, 'src');

export interface ImportEdge {
  /** Importing file, relative to src. */
  readonly from: string;
  /** Imported file, relative to src, or a package name. */
  readonly to: string;
  readonly isPackage: boolean;
}

const IMPORTS =
  /(?:^|[\s;}])(?:import|export)\s+(?:type\s+)?(?:[^'"();]*?\sfrom\s*)?['"]([^'"]+)['"]|\bimport\s*\(\s*['"]([^'"]+)['"]\s*\)/gm;

/** All import edges below src. */
export function importEdges(): ImportEdge[] {
  return sourceFiles().flatMap((file) => edgesOf(file, readFileSync(join(SRC, file), 'utf8')));
}

export function sourceFiles(): string[] {
  return readdirSync(SRC, { recursive: true, encoding: 'utf8' })
    .map((f) => f.split(sep).join('/'))
    .filter((f) => f.endsWith('.ts'))
    .sort();
}

/** A source file's code, without its comments. */
export function readSource(file: string): string {
  return withoutComments(readFileSync(join(SRC, file), 'utf8'));
}

function withoutComments(text: string): string {
  return text.replace(/\/\*[\s\S]*?\*\//g, '').replace(/(^|\s)\/\/.*$/gm, '');
}

/** The edges of one file's text. */
export function edgesOf(file: string, text: string): ImportEdge[] {
  const code = withoutComments(text);
  return [...code.matchAll(IMPORTS)].map((match) => {
    const name = match[1] ?? match[2] ?? '';
    if (!name.startsWith('.')) return { from: file, to: name, isPackage: true };
    const target = resolve(SRC, dirname(file), name).replace(/\.js$/, '.ts');
    return { from: file, to: relative(SRC, target).split(sep).join('/'), isPackage: false };
  });
}

/** The stage a file belongs to: its first folder, or the file's own name at the top. */
export function stageOf(file: string): string {
  return file.includes('/') ? file.slice(0, file.indexOf('/')) : file;
}
