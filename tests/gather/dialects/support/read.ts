import {
  loadDialect,
  readDialectLog,
  type CompiledDialect,
  type DialectLogOptions,
} from '../../../../src/gather/dialects/index.js';
import { saidBy } from '../../../../src/model/index.js';
import type { LogRead } from '../../../../src/gather/lines/log-read.js';
import { withLog } from '../../lines/support/temp-log.js';

/** A dialect that must load. */
export function dialect(text: string): CompiledDialect {
  const loaded = loadDialect('tern.yaml', text);
  if (loaded.dialect === null) throw new Error(loaded.warnings.map((warning) => warning.message).join('\n'));
  return loaded.dialect;
}

/** A log read by a dialect, both given as text. */
export function read(
  dialectText: string,
  log: string | Uint8Array,
  options: DialectLogOptions & { name?: string } = {},
): Promise<LogRead> {
  const { name = 'night.log', ...rest } = options;
  return withLog(log, (root, file) => readDialectLog(root, file, dialect(dialectText), rest), name);
}

/** Events in short: `2026-10-14T19:42:10.250Z exposure-begin heron {"filter":"Ha"}`. */
export function brief(log: LogRead): string[] {
  return log.events.map((read) => {
    const { atMs, event, train, ...fields } = saidBy(read);
    const facts = Object.keys(fields).length === 0 ? '' : ` ${JSON.stringify(fields)}`;
    return `${new Date(atMs).toISOString()} ${event}${train === undefined ? '' : ` ${train}`}${facts}`;
  });
}

export function codes(log: LogRead): string[] {
  return log.warnings.map((warning) => warning.code);
}
