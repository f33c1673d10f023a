/**
 * What takes long to make and is the same for all: made once in a process, and left for the other processes of a run in
 * a folder that the set-up makes. Without that folder, as in scripts, each process makes its own.
 */
import { existsSync, mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { deserialize, serialize } from 'node:v8';

let folder: string | undefined;

/** @param path of this run's folder */
export function keepIn(path: string | undefined): void {
  folder = path;
}

/**
 * A keeper of plain data by their names. Whoever changes something makes a copy.
 *
 * @param kind part of the files' names
 */
export function keeper<T>(kind: string, make: (name: string) => T): (name: string) => T {
  const known = new Map<string, T>();
  return (name) => {
    const one = known.get(name) ?? fetched(`${name}.${kind}`, () => make(name));
    known.set(name, one);
    return one;
  };
}

/** Plain data whose making is waited for, by its name; to be asked for once in a process. */
export async function kept<T>(name: string, make: () => Promise<T>): Promise<T> {
  return stored<T>(name)?.data ?? store(name, await make());
}

function fetched<T>(name: string, make: () => T): T {
  return stored<T>(name)?.data ?? store(name, make());
}

/** What this or another process has left; none without a folder. */
function stored<T>(name: string): { readonly data: T } | null {
  const file = folder === undefined ? '' : join(folder, name);
  return existsSync(file) ? { data: deserialize(readFileSync(file)) as T } : null;
}

function store<T>(name: string, made: T): T {
  if (folder === undefined) return made;
  const file = join(folder, name);
  mkdirSync(folder, { recursive: true });
  // Written beside and renamed: another process may look for it meanwhile.
  writeFileSync(`${file}.${process.pid}`, serialize(made));
  renameSync(`${file}.${process.pid}`, file);
  return made;
}
