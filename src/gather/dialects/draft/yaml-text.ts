const MAX_COMMENT = 110;

/** A single-quoted YAML scalar. */
export function quoted(text: string): string {
  return `'${text.replace(/\p{Cc}/gu, ' ').replaceAll("'", "''")}'`;
}

/** A YAML scalar, unquoted if possible. */
export function scalar(text: string): string {
  return /^[a-z]\w*$/i.test(text) ? text : quoted(text);
}

/** A text for use in a comment: one line, no control characters, limited length. */
export function comment(text: string): string {
  const line = text.replace(/\s*\n\s*/g, ' / ').replace(/[\p{Cc}\p{Cs}\u2028\u2029\ufeff]/gu, ' ');
  return line.length <= MAX_COMMENT ? line : `${line.slice(0, MAX_COMMENT - 1).replace(/[\ud800-\udbff]$/, '')}…`;
}
