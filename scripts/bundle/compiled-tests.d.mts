/** Compiles modules of `from` and what they import, one by one, to `outDir`. @param entries paths below `from` */
export function compileModules(from: string, outDir: string, entries: readonly string[]): Promise<void>;
