/** How a session folder is to be read. */
export interface GatherOptions {
  /** The present, UTC ms, for detecting dates in the future. */
  readonly nowMs: number;
  /** Another rig file than the folder's own, as a path of the file system. */
  readonly rigFile?: string;
  /** The folder of the user's rigs, absolute, for sessions without a rig file. */
  readonly userRigs?: string;
  /** Folders to leave out, absolute (the report's output). */
  readonly skip?: readonly string[];
  /** The folder is a stranger's: links and dialects that lead out of it are refused. */
  readonly untrusted?: boolean;
  /** Called while headers are read. */
  readonly onProgress?: (done: number, total: number) => void;
}
