import { readdirSync } from 'node:fs';
import { join } from 'node:path';

/** The YAML files of a user's folder, absolute paths, sorted; none if missing or unreadable. */
export function yamlFilesOf(folder: string | undefined): string[] {
  if (folder === undefined) return [];
  try {
    return readdirSync(folder)
      .filter((name) => /\.ya?ml$/i.test(name) && !name.startsWith('.'))
      .sort()
      .map((name) => join(folder, name));
  } catch {
    return [];
  }
}
