/** Writes a file whole or not at all. */
export type WriteFile = (path: string, text: string) => Promise<void>;
