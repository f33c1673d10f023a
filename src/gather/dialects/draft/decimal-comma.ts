import type { Reading } from './reading/reading.js';

/** Whether a log writes its decimals with a comma: most numbers with a fraction have one. */
export function usesDecimalComma({ messages, fieldLines }: Reading): boolean {
  let commas = 0;
  let points = 0;
  const count = (text: string): void => {
    if (/(?<![\d.,])\d+,\d+(?![\d.,])/.test(text)) commas++;
    if (/(?<![\p{L}\d.,/])\d+\.\d+(?![\p{L}\d.,])/u.test(text)) points++;
  };
  for (const { text } of messages.slice(0, 5000)) count(text);
  for (const { fields } of fieldLines.slice(0, 5000)) for (const value of fields.values()) count(value);
  return commas > 2 * points;
}
