import { readYaml } from '../../config/yaml-file.js';
import { formatPath, type Warning } from '../../model/index.js';
import { compileDialect } from './compile.js';
import type { CompiledDialect } from './compiled.js';
import type { Path } from './problems.js';
import { dialectSchema } from './schema.js';
import { explainIssues, type Problem } from './schema-messages.js';

const MAX_TEXT = 1024 * 1024;

/** A dialect file, as far as it is usable. */
export interface LoadedDialect {
  /** `null` when the file is unusable; the warnings say why. */
  readonly dialect: CompiledDialect | null;
  readonly warnings: readonly Warning[];
}

/**
 * Reads a dialect file. Never throws: every problem is reported by a warning that names the line, the key and the fix.
 *
 * @param path the file, relative to the session folder, for messages
 * @param text its content
 */
export function loadDialect(path: string, text: string): LoadedDialect {
  const refused = (line: number, message: string): LoadedDialect => ({
    dialect: null,
    warnings: [invalid(path, line, message)],
  });
  if (text.length > MAX_TEXT)
    return refused(0, `the file is larger than ${MAX_TEXT / 2 ** 20} MiB; a dialect is a page or two of YAML`);
  const read = readYaml(text);
  if (!read.ok)
    return {
      dialect: null,
      warnings: read.problems.map(({ line = 0, message }) => invalid(path, line, `the file is ${message}`)),
    };
  const { value: content, lineOf } = read.yaml;
  const tell = (problems: readonly Problem[]): LoadedDialect => ({
    dialect: null,
    warnings: problems.map((problem) =>
      invalid(path, lineOf(problem.path), `${pathBefore(problem.path)}${problem.message}`),
    ),
  });
  if (content === null || typeof content !== 'object')
    return refused(1, 'it must be a map of keys that begins with "dialect: 1"');
  if (!('dialect' in content) && ('site' in content || 'targets' in content))
    return refused(1, 'it looks like a rig file; name a dialect, which begins with "dialect: 1"');
  // Created once: compiling the schema takes longer than creating it.
  const result = dialectSchema.safeParse(content, { reportInput: true, jitless: true });
  if (!result.success) return tell(explainIssues(result.error.issues, dialectSchema));
  const compiled = compileDialect(result.data, path, lineOf);
  return 'file' in compiled ? { dialect: compiled, warnings: [] } : tell(compiled);
}

function invalid(path: string, line: number, message: string): Warning {
  const where = line > 0 ? `${path}, line ${line}` : path;
  const source = line > 0 ? { file: path, line } : { file: path };
  return {
    code: 'invalid-dialect',
    message: `The dialect ${where} cannot be used: ${message}.`.replace(/([.?!])\.$/, '$1'),
    source,
  };
}

function pathBefore(path: Path): string {
  return path.length === 0 ? '' : `${formatPath(path)}: `;
}
