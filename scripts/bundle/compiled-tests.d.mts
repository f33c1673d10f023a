/** Compiles modules of `from`, each to its file in `outDir`, and what they import. @param entries paths below `from` */
export function compileModules(from: string, outDir: string, entries: readonly string[]): Promise<void>;
