/**
 * What is odd about a header, and how it is told: one warning per oddity with a count, not one per file.
 */
import type { Warning } from '../../model/warning.js';

/** Something odd about one file's header. */
export interface HeaderNote {
  /** Kebab-case noun for the state: `truncated-header`. */
  readonly code: string;
  /** The keyword concerned, where there is one. */
  readonly card?: string;
  /** What is the case: a sentence without its full stop, fit to follow `FILE: `. */
  readonly what: string;
  /** What to do about it: a whole sentence. */
  readonly remedy: string;
}

interface Group {
  readonly note: HeaderNote;
  readonly file: string;
  last: string;
  count: number;
}

/**
 * Gathers notes into warnings. The same oddity of the same card in many files becomes one warning that
 * names the first and the last file; a problem that cost a file's header is told for every file.
 */
export class NoteCollector {
  private readonly groups = new Map<string, Group>();

  /** Adds a note on a header that was read all the same. */
  add(file: string, note: HeaderNote): void {
    this.put(`${note.code} ${note.card ?? ''}`, file, note);
  }

  /** Adds the reason why a file's header could not be read. */
  addProblem(file: string, problem: HeaderNote): void {
    this.put(`${problem.code} ${file}`, file, problem);
  }

  /** The warnings, in the order in which each was first met. */
  warnings(): Warning[] {
    return [...this.groups.values()].map(toWarning);
  }

  private put(key: string, file: string, note: HeaderNote): void {
    const group = this.groups.get(key);
    if (group === undefined) {
      this.groups.set(key, { note, file, last: file, count: 1 });
    } else {
      group.last = file;
      group.count++;
    }
  }
}

function toWarning({ note, file, last, count }: Group): Warning {
  const others = count === 1 ? '' : count === 2 ? ` (and in ${last})` : ` (and in ${count - 1} more files, the last ${last})`;
  return {
    code: note.code,
    message: `${file}: ${note.what}${others}. ${note.remedy}`,
    source: note.card === undefined ? { file } : { file, card: note.card },
    ...(count > 1 && { count }),
  };
}
