/**
 * The time pattern with numeric day and month swapped; `null` if the month has a name or the year is first, or if the
 * night is stated by both its days.
 */
export function swappedOrder(pattern: string): string | null {
  if (/\{year\}.*\{month\}/.test(pattern) || !pattern.includes('{day}') || !pattern.includes('{month}')) return null;
  if (pattern.includes('{number}')) return null;
  return pattern.replace(/\{(day|month)\}/g, (_, name: string) => (name === 'day' ? '{month}' : '{day}'));
}
