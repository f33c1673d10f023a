/** Writes a file completely or not at all. */
export type WriteFile = (path: string, text: string) => Promise<void>;
