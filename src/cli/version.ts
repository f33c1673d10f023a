import { readFileSync } from 'node:fs';

/** Written in by the build; absent where the sources run as they are. */
declare const __NIGHTLEDGER_VERSION__: string | undefined;

/** The program's version, from its own package.json. */
export function programVersion(): string {
  if (typeof __NIGHTLEDGER_VERSION__ === 'string') return __NIGHTLEDGER_VERSION__;
  const text = readFileSync(new URL('../../package.json', import.meta.url), 'utf8');
  const parsed: unknown = JSON.parse(text);
  const version = typeof parsed === 'object' && parsed !== null && 'version' in parsed ? parsed.version : undefined;
  return typeof version === 'string' ? version : '0.0.0';
}
