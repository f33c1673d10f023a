/**
 * The time pattern with day and month of digits the other way round; `null` where the month has a name or the year is
 * first, or where the night is stated by both its days.
 */
export function swappedOrder(pattern: string): string | null {
  if (/\{year\}.*\{month\}/.test(pattern) || !pattern.includes('{day}') || !pattern.includes('{month}')) return null;
  if (pattern.includes('{number}')) return null;
  return pattern.replace(/\{(day|month)\}/g, (_, name: string) => (name === 'day' ? '{month}' : '{day}'));
}
