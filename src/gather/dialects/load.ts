import { isMap, isNode, isScalar, LineCounter, parseDocument, type Document } from 'yaml';
import { formatPath } from '../../config/index.js';
import type { Warning } from '../../model/index.js';
import { compileDialect } from './compile.js';
import type { CompiledDialect } from './compiled.js';
import { dialectSchema } from './schema.js';
import { explainIssues, type Problem } from './schema-messages.js';

const MAX_TEXT = 1024 * 1024;

/** Aliases may stand for this many nodes in all; more is a bomb or a mistake. */
const MAX_ALIASES = 50;

/** A dialect file as far as it could be used. */
export interface LoadedDialect {
  /** `null` when the file cannot be used; the warnings say why. */
  readonly dialect: CompiledDialect | null;
  readonly warnings: readonly Warning[];
}

/**
 * Reads a dialect file. Never throws: whatever is wrong with it is reported by warnings that name the line, the key
 * and the fix.
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
  const counter = new LineCounter();
  let document: Document.Parsed;
  let content: unknown;
  try {
    document = parseDocument(text, { lineCounter: counter, logLevel: 'silent' });
    const [error] = document.errors;
    if (error !== undefined)
      return refused(error.linePos?.[0].line ?? 0, `this is not valid YAML: ${error.message.split('\n')[0] ?? ''}`);
    content = document.toJS({ maxAliasCount: MAX_ALIASES });
  } catch (error) {
    // Too many aliases, or a structure nested beyond the stack.
    return refused(0, `this YAML cannot be read: ${error instanceof Error ? error.message : String(error)}`);
  }
  const lineOf = (keys: readonly (string | number)[]): number => lineOfPath(document, counter, keys);
  const tell = (problems: readonly Problem[]): LoadedDialect => ({
    dialect: null,
    warnings: problems.map((problem) =>
      invalid(path, lineOf(problem.path), `${pathBefore(problem.path)}${problem.message}`),
    ),
  });
  if (content === null || typeof content !== 'object')
    return refused(1, 'it must be a map of keys that begins with "dialect: 1"');
  const result = dialectSchema.safeParse(content, { reportInput: true });
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

/** List items are counted from 0, as in the rig file's messages. */
function pathBefore(path: readonly (string | number)[]): string {
  return path.length === 0 ? '' : `${formatPath(path)}: `;
}

/** The line of the key that the path names, or of the nearest thing above it that exists. */
function lineOfPath(document: Document.Parsed, counter: LineCounter, path: readonly (string | number)[]): number {
  for (let length = path.length; length >= 0; length--) {
    const parent = length === 0 ? document.contents : document.getIn(path.slice(0, length - 1), true);
    const key = path[length - 1];
    const pair =
      isMap(parent) && key !== undefined
        ? parent.items.find((item) => isScalar(item.key) && String(item.key.value) === String(key))
        : undefined;
    const node = pair !== undefined ? pair.key : length === 0 ? parent : document.getIn(path.slice(0, length), true);
    if (isNode(node) && node.range) return counter.linePos(node.range[0]).line;
  }
  return 0;
}
