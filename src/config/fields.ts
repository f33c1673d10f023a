/**
 * Numbers and texts of the files that a user writes, with messages that say what to write instead.
 */
import { z } from 'zod';
import { MAX_NAME } from '../model/index.js';

/** As many languages write a fraction; YAML reads a text. */
const DECIMAL_COMMA = /^[+-]?\d+,\d+$/;

export const number = (what: string, low: number, high: number) =>
  z
    .number({
      error: ({ input }) =>
        typeof input === 'string' && DECIMAL_COMMA.test(input)
          ? `must be a number, with a decimal point in place of the comma in "${input}": ${what}`
          : `must be a number: ${what}`,
    })
    .min(low, `must be at least ${low}: ${what}`)
    .max(high, `must be at most ${high}: ${what}`);

export const text = (what: string) =>
  z
    .string({ error: `must be text: ${what}` })
    .min(1, `must not be empty: ${what}`)
    .max(MAX_NAME, `must be at most ${MAX_NAME} characters: ${what}`);

/** What is wrong with a value that is not a mapping. */
export const mapping = (example: string): string => `must be a mapping such as ${example}`;
