export function digestOfProject(root: string): string | null;

export function unlessPassed<T extends { readonly passed: boolean }>(
  file: string,
  digestOf: () => string | null,
  check: () => Promise<T>,
): Promise<T | { readonly passed: true; readonly output: string }>;
