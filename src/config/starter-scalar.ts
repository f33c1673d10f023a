import { stringify } from 'yaml';

/** A YAML scalar on one line, quoted where needed; header texts and names of files are untrusted. */
export function scalar(value: string | number): string {
  return stringify(typeof value === 'number' ? value : value.replace(/[\r\n]+/g, ' '), {
    lineWidth: 0,
    defaultStringType: 'QUOTE_DOUBLE',
  }).trimEnd();
}
