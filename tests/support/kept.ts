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

function fetched<T>(name: string, make: () => T): T {
  if (folder === undefined) return make();
  const file = join(folder, name);
  if (existsSync(file)) return deserialize(readFileSync(file)) as T;
  const made = make();
  mkdirSync(folder, { recursive: true });
  // Written beside and renamed: another process may look for it meanwhile.
  writeFileSync(`${file}.${process.pid}`, serialize(made));
  renameSync(`${file}.${process.pid}`, file);
  return made;
}
