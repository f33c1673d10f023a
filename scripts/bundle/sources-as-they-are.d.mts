/** A digest of a project's libraries and of its files below `folders`, by their names, sizes and times. */
export function digestOfFiles(root: string, folders: readonly string[]): string;
