/** The source of a fact, so that every figure can be traced: a file, and a line or header card in it. */
export interface Source {
  /** Path relative to the session folder, with forward slashes. */
  readonly file: string;
  /** 1-based line number, for logs and YAML. */
  readonly line?: number;
  /** FITS keyword, for headers. */
  readonly card?: string;
}

/** `logs/heron.jsonl:214`, `frames/a.fits [DATE-OBS]`. */
export function formatSource(source: Source): string {
  const line = source.line === undefined ? '' : `:${source.line}`;
  const card = source.card === undefined ? '' : ` [${source.card}]`;
  return `${source.file}${line}${card}`;
}
