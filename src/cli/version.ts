import { readFileSync } from 'node:fs';

/** The program's version, from its own package.json. */
export function programVersion(): string {
  const text = readFileSync(new URL('../../package.json', import.meta.url), 'utf8');
  const parsed: unknown = JSON.parse(text);
  const version = typeof parsed === 'object' && parsed !== null && 'version' in parsed ? parsed.version : undefined;
  return typeof version === 'string' ? version : '0.0.0';
}
