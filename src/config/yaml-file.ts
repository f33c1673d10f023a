/**
 * YAML with positions: parse errors and schema errors are reported as `file:line: path: what to write`.
 */
import { isNode, LineCounter, parseDocument, type Document } from 'yaml';
import type { z } from 'zod';

/** Aliases beyond this many expansions are refused: a small file must not unfold into gigabytes. */
const MAX_ALIASES = 50;
/** A configuration file larger than this is no configuration file. */
const MAX_BYTES = 2_000_000;

/** The input could not be used; `problems` are complete sentences with file and line. */
export class ConfigError extends Error {
  override readonly name = 'ConfigError';
  constructor(readonly problems: readonly string[]) {
    super(problems.join('\n'));
  }
}

/** A parsed YAML text that can still say on which line a path stands. */
export interface YamlFile {
  readonly value: unknown;
  /** 1-based line of the value at the path, or of its nearest written ancestor. */
  lineOf(path: readonly PropertyKey[]): number;
}

/**
 * Parses YAML 1.2 from an untrusted file.
 *
 * @throws ConfigError with one sentence per syntax error
 */
export function parseYaml(name: string, text: string): YamlFile {
  if (text.length > MAX_BYTES) throw new ConfigError([`${name}: larger than 2 MB; this is not a configuration file`]);
  const lines = new LineCounter();
  const document = parseDocument(text.replace(/^\uFEFF/, ''), { lineCounter: lines, prettyErrors: false });
  if (document.errors.length > 0) {
    throw new ConfigError(
      document.errors.map((e) => `${name}:${lines.linePos(e.pos[0]).line}: not valid YAML: ${e.message}`),
    );
  }
  let value: unknown;
  try {
    value = document.toJS({ maxAliasCount: MAX_ALIASES });
  } catch (error) {
    throw new ConfigError([
      `${name}: ${(error as Error).message}; write the values out instead of using so many aliases`,
    ]);
  }
  return { value, lineOf: (path) => lineOf(document, lines, path) };
}

function lineOf(document: Document, lines: LineCounter, path: readonly PropertyKey[]): number {
  for (let depth = path.length; depth >= 0; depth--) {
    const node = document.getIn(path.slice(0, depth) as (string | number)[], true);
    if (isNode(node) && node.range) return lines.linePos(node.range[0]).line;
  }
  return 1;
}

/** `trains[0].role` from `['trains', 0, 'role']`. */
export function formatPath(path: readonly PropertyKey[]): string {
  return path.reduce<string>(
    (text, key) => (typeof key === 'number' ? `${text}[${key}]` : text ? `${text}.${String(key)}` : String(key)),
    '',
  );
}

/**
 * Validates a YAML file's value, turning each schema issue into a sentence with file, line and path.
 *
 * @throws ConfigError naming every problem at once
 */
export function validate<T extends z.ZodType>(name: string, yaml: YamlFile, schema: T): z.output<T> {
  const result = schema.safeParse(yaml.value);
  if (result.success) return result.data;
  throw new ConfigError(
    result.error.issues.map((issue) => {
      const path = formatPath(issue.path);
      return `${name}:${yaml.lineOf(issue.path)}: ${path ? `${path} ` : ''}${issue.message}`;
    }),
  );
}
