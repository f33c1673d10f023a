/** Problems of a FITS file in words: the state, and the remedy. */
import type { CardValue } from './card-values.js';

/** Something odd about one file's header. */
export interface HeaderNote {
  /** Kebab-case noun for the state: `truncated-header`. */
  readonly code: string;
  /** The keyword concerned, if any. */
  readonly card?: string;
  /** The state: a sentence without its full stop, suitable after `FILE: `. */
  readonly what: string;
  /** What to do about it: a whole sentence. */
  readonly remedy: string;
}

const SHOWN_CHARACTERS = 60;

/** A value formatted for a message: text in quotes, truncated when long. */
export function show(value: CardValue): string {
  if (typeof value !== 'string') return String(value);
  return value.length > SHOWN_CHARACTERS ? `'${value.slice(0, SHOWN_CHARACTERS)}…'` : `'${value}'`;
}

const COPY_AGAIN = 'Copy it again from the camera computer.';

export function emptyFile(): HeaderNote {
  return { code: 'empty-file', what: 'the file is empty (0 bytes)', remedy: COPY_AGAIN };
}

export function notAFile(isDirectory: boolean): HeaderNote {
  return {
    code: 'not-a-file',
    what: isDirectory ? 'this is a folder, not a file' : 'this is a device or a pipe, not a file',
    remedy: 'Rename it, or narrow the pattern that finds the frames.',
  };
}

export function notFits(): HeaderNote {
  return {
    code: 'not-fits',
    what: 'this is not a FITS file: it does not begin with the card SIMPLE',
    remedy: 'Take it out of the frame folder, or narrow the pattern that finds the frames.',
  };
}

export function leadingBytes(count: number): HeaderNote {
  return {
    code: 'leading-bytes',
    what:
      `${count} ${count === 1 ? 'byte comes' : 'bytes come'} before the first card; the header was read from ` +
      'there on',
    remedy: 'Other programs may refuse the file: find out what rewrote it.',
  };
}

/** @param keywords of the cards that are longer than 80 bytes, at least one */
export function overlongCards(keywords: readonly string[]): HeaderNote {
  const [first = '', ...others] = keywords;
  return {
    code: 'overlong-card',
    card: first,
    what:
      `${first === '' ? 'a card' : first}${others.length > 0 ? ` and ${others.length} more` : ''} ` +
      `${others.length > 0 ? 'take' : 'takes'} more than 80 bytes, because characters beyond ASCII were counted as ` +
      'one; the cards after it were read where they begin',
    remedy:
      'Write names without accents and special characters in the capture program: other programs may refuse ' +
      'the file.',
  };
}

export function damagedHeader(): HeaderNote {
  return {
    code: 'damaged-header',
    card: 'NAXIS',
    what: 'the header lacks the mandatory card NAXIS',
    remedy: COPY_AGAIN,
  };
}

export function headerStump(): HeaderNote {
  return {
    code: 'truncated-header',
    card: 'NAXIS',
    what: 'the file stops in the first cards of its header, before the mandatory card NAXIS',
    remedy: COPY_AGAIN,
  };
}

/**
 * Describes the end of a header without END as far as it was read.
 *
 * @param mostBytes of a header that are read
 */
export function withoutEnd(ending: 'truncated' | 'no-end-card' | 'too-long', mostBytes: number): HeaderNote {
  switch (ending) {
    case 'truncated':
      return {
        code: 'truncated-header',
        card: 'END',
        what: 'the file stops within its header; the cards before that were read',
        remedy: COPY_AGAIN,
      };
    case 'no-end-card':
      return {
        code: 'missing-end',
        card: 'END',
        what: 'the header has no END card; the cards up to the first bytes that are not text were read',
        remedy: COPY_AGAIN,
      };
    case 'too-long':
      return {
        code: 'long-header',
        card: 'END',
        what: `the header is longer than ${mostBytes} bytes; the cards within these were read`,
        remedy: 'Check what writes so many cards, and have it write them into a file of their own.',
      };
  }
}

/** Whether a file's notes say that it is truncated. */
export function tellCutOff(notes: readonly HeaderNote[]): boolean {
  return notes.some(({ code }) => code === 'truncated-file' || code === 'truncated-header');
}

export function truncatedFile(sizeBytes: number, neededBytes: number): HeaderNote {
  return {
    code: 'truncated-file',
    what: `the file has ${sizeBytes} bytes, but its header describes ${neededBytes}: pixels are missing`,
    remedy: 'Copy it again from the camera computer; if it is short there too, set the frame aside.',
  };
}

export function truncatedGzip(inflatedBytes: number, neededBytes: number): HeaderNote {
  const note = truncatedFile(inflatedBytes, neededBytes);
  return { ...note, what: `unpacked, ${note.what}` };
}

export function tooSmallGzip(sizeBytes: number, neededBytes: number): HeaderNote {
  const what =
    `the file has ${sizeBytes} bytes, too few for the ${neededBytes} that its header describes, ` +
    'even when compressed: pixels are missing';
  return { ...truncatedFile(sizeBytes, neededBytes), what };
}

export function unprovenGzip(neededBytes: number): HeaderNote {
  return {
    code: 'unproven-length',
    what:
      'its end does not show that it is complete, and it was not unpacked to check, because its header describes ' +
      `${neededBytes} bytes`,
    remedy: 'Measure its stars (--stars full), or unpack it once, to find out.',
  };
}

export function nonstandard(): HeaderNote {
  return {
    code: 'nonstandard-fits',
    card: 'SIMPLE',
    what:
      'SIMPLE is not T: by its own statement the file does not conform to the FITS standard; its cards were read ' +
      'anyway',
    remedy: 'Check how the file was written.',
  };
}

export function noImage(): HeaderNote {
  return {
    code: 'no-image',
    what: 'no image was found, neither in the primary unit nor in an extension',
    remedy: 'Check that the file is a frame; if it is not, narrow the pattern that finds the frames.',
  };
}

/**
 * Puts an error of the file system or of inflating into words.
 *
 * @throws the error itself when it is neither, for then it is a mistake in this program
 */
export function fromError(error: unknown): HeaderNote {
  const code = error instanceof Error && 'code' in error ? String(error.code) : undefined;
  if (code === undefined) throw error;
  if (code.startsWith('Z_') || code === 'ERR_BUFFER_TOO_LARGE') {
    return { code: 'damaged-gzip', what: `the gzip stream is damaged (${code})`, remedy: COPY_AGAIN };
  }
  if (!(error instanceof Error && 'syscall' in error)) throw error;
  if (code === 'ENOENT')
    return { code: 'missing-file', what: 'there is no such file', remedy: 'If it is a link, fix or remove it.' };
  if (code === 'EACCES' || code === 'EPERM') {
    return {
      code: 'unreadable-file',
      what: `the file may not be read (${code})`,
      remedy: 'Give yourself permission to read it.',
    };
  }
  return {
    code: 'unreadable-file',
    what: `the file could not be read (${code})`,
    remedy: 'Check the disk or network drive it is on.',
  };
}
