/** A file's value against its schema, and beyond it: each problem as `file:line: path what to write`, all at once. */
import type { z } from 'zod';
import { formatPath, type Warning } from '../model/index.js';
import { ConfigError, type YamlFile } from './yaml-file.js';

/** One thing wrong with a file's value, at a place in it. */
export interface YamlIssue {
  readonly path: readonly PropertyKey[];
  readonly message: string;
}

/** A key that a file does not have: ignored, unless something is wrong; then it may be why another is missing. */
export interface UnknownKey {
  readonly path: readonly PropertyKey[];
  /** Completes "KEY …". */
  readonly what: string;
  readonly hint: string;
}

/**
 * Validates a YAML file's value: each issue is a sentence with file, line and path, in the order of the lines.
 *
 * @param wrong what the schema does not see; reported together with its issues, so that none has to wait for another
 * @throws ConfigError naming every problem at once
 */
export function validate<T extends z.ZodType>(
  name: string,
  yaml: YamlFile,
  schema: T,
  { wrong, unknown }: { readonly wrong: readonly YamlIssue[]; readonly unknown: readonly UnknownKey[] },
): z.output<T> {
  // A file is read once: to compile a check of it takes longer than to make it.
  const result = schema.safeParse(yaml.value, { jitless: true });
  if (result.success && wrong.length === 0) return result.data;
  const issues: readonly YamlIssue[] = [
    ...(result.error?.issues ?? []),
    ...wrong,
    ...unknown.map(({ path, what, hint }) => ({ path, message: `${what}; ${hint}` })),
  ];
  const placed = issues.map(({ path, message }) => ({ line: yaml.lineOf(path), place: formatPath(path), message }));
  throw new ConfigError(
    placed
      .sort((a, b) => a.line - b.line)
      .map(({ line, place, message }) => `${name}:${line}: ${place ? `${place} ` : ''}${message}`),
  );
}

/** The warnings of a file in which nothing else is wrong. */
export function ignoredKeys(name: string, yaml: YamlFile, unknown: readonly UnknownKey[], code: string): Warning[] {
  return unknown.map(({ path, what, hint }) => ({
    code,
    message: `${formatPath(path)} ${what} and was ignored; ${hint}`,
    source: { file: name, line: yaml.lineOf(path) },
  }));
}
