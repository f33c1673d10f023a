import type { JudgedFrame } from '../../model/index.js';

/** Name of a frame in running text: its file without folders, else its id. */
export function frameName(frame: JudgedFrame): string {
  return frame.file?.split('/').at(-1) ?? frame.id;
}
