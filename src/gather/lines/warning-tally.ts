import type { Source } from '../../model/source.js';
import type { Warning } from '../../model/warning.js';
import { clipped, MAX_TEXT } from '../../vocabulary/bounds.js';

/** Occurrences of one kind that are reported one by one before the rest is merged. */
const LISTED_SINGLY = 3;

/** Maximum number of kinds distinguished by detail; a log with made-up field names must not fill the memory. */
const MAX_KINDS = 100;

interface Kind {
  readonly code: string;
  readonly detail: string;
  count: number;
  firstMergedLine: number;
  lastMergedLine: number;
}

/**
 * Collects the warnings of one file. The first three of a kind are listed individually, each with its line; the others
 * become one warning that counts them, so that a log broken on every line costs four warnings.
 */
export class WarningTally {
  private readonly single: Warning[] = [];
  private readonly kinds = new Map<string, Kind>();

  /** @param file path relative to the session folder, for the warnings' sources */
  constructor(private readonly file: string) {}

  /**
   * Notes one occurrence.
   *
   * @param code kebab-case noun for the state
   * @param line 1-based line number, or 0 when the warning is about the whole file
   * @param message makes the full sentence; called only when it will be shown
   * @param detail distinguishes kinds of one code, such as a field's name
   */
  add(code: string, line: number, message: () => string, detail = ''): void {
    const kind = this.kindOf(code, detail);
    kind.count++;
    if (kind.count <= LISTED_SINGLY) {
      this.single.push({ code, message: clipped(message(), MAX_TEXT), source: this.sourceOf(line) });
      return;
    }
    if (kind.firstMergedLine === 0) kind.firstMergedLine = line;
    kind.lastMergedLine = line;
  }

  /** The warnings so far, sorted by line; those of the whole file first. */
  list(): Warning[] {
    const merged = [...this.kinds.values()].flatMap((kind): Warning[] => {
      const count = kind.count - LISTED_SINGLY;
      if (count <= 0) return [];
      const what = kind.detail === '' ? kind.code : `${kind.code}: ${kind.detail}`;
      const span =
        kind.firstMergedLine === kind.lastMergedLine
          ? `line ${kind.firstMergedLine}`
          : `lines ${kind.firstMergedLine} to ${kind.lastMergedLine}`;
      const message = `${count} more like these (${what}), ${span}.`;
      return [{ code: kind.code, message, source: this.sourceOf(kind.firstMergedLine), count }];
    });
    return [...this.single, ...merged].sort((a, b) => (a.source?.line ?? 0) - (b.source?.line ?? 0));
  }

  private kindOf(code: string, whole: string): Kind {
    const detail = clipped(whole);
    const key = `${code}\0${detail}`;
    const known = this.kinds.get(key);
    if (known !== undefined) return known;
    if (detail !== '' && this.kinds.size >= MAX_KINDS) return this.kindOf(code, '');
    const kind: Kind = { code, detail, count: 0, firstMergedLine: 0, lastMergedLine: 0 };
    this.kinds.set(key, kind);
    return kind;
  }

  private sourceOf(line: number): Source {
    return line > 0 ? { file: this.file, line } : { file: this.file };
  }
}
