/** Letters and digits only, lower case: `H-alpha` = `Halpha`, `NGC 281` = `ngc281`. */
export function fold(text: string): string {
  return text
    .normalize('NFKC')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '');
}
