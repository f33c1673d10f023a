/** What a reader of PDF finds in one. The reader runs in a thread, one for all test files of a process. */
import { Worker } from 'node:worker_threads';

/** A run of text; points from the page's lower left. */
export interface Line {
  readonly text: string;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface OutlineEntry {
  readonly title: string;
  readonly items: readonly OutlineEntry[];
}

export interface ReadPdf {
  readonly isTagged: boolean;
  readonly outline: readonly OutlineEntry[];
  /** What the file says of itself, as JSON. */
  readonly about: string;
  /** How many links it has; null where that was not asked. */
  readonly links: number | null;
  readonly pages: readonly {
    readonly size: readonly [number, number];
    readonly lines: readonly Line[];
  }[];
}

type Answer = { readonly id: number } & ({ readonly read: ReadPdf } | { readonly failure: string });

let thread: Worker | undefined;
let asked = 0;
const waiting = new Map<number, (answer: Answer) => void>();

function started(): Worker {
  if (thread !== undefined) return thread;
  thread = new Worker(new URL('./pdf-reader-thread.mjs', import.meta.url));
  thread.on('message', (answer: Answer) => waiting.get(answer.id)?.(answer));
  thread.on('error', (error) => {
    for (const [id, resolve] of waiting) resolve({ id, failure: String(error) });
    thread = undefined;
  });
  // It ends with the process.
  thread.unref();
  return thread;
}

/** Reads a PDF. */
export async function readPdf(data: Uint8Array, { withLinks = false } = {}): Promise<ReadPdf> {
  const id = asked++;
  const answer = await new Promise<Answer>((resolve) => {
    waiting.set(id, resolve);
    started().postMessage({ id, data, withLinks });
  });
  waiting.delete(id);
  if ('failure' in answer) throw new Error(`the PDF could not be read: ${answer.failure}`);
  return answer.read;
}

/** Titles of an outline, of all depths, in its order. */
export function titlesOf(entries: readonly OutlineEntry[]): string[] {
  return entries.flatMap(({ title, items }) => [title, ...titlesOf(items)]);
}
