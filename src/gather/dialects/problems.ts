import { FormulaError } from './formula.js';
import { compilePattern, MatchBudget, PatternError, type Pattern } from './pattern/pattern.js';
import type { Problem } from './schema-messages.js';
import { TemplateError } from './template.js';
import { StampPattern, TimePatternError } from './time/stamp.js';

/** Keys and indices of a location in a dialect file. */
export type Path = readonly (string | number)[];

/** Collects problems found in compilation; a part that cannot be compiled gives `null`. */
export class Problems {
  readonly list: Problem[] = [];
  /** Shared by all patterns of the dialect. */
  readonly budget = new MatchBudget();

  add(path: Path, message: string): null {
    this.list.push({ path, message });
    return null;
  }

  attempt<T>(path: Path, what: string, make: () => T): T | null {
    try {
      return make();
    } catch (error) {
      if (
        error instanceof PatternError ||
        error instanceof FormulaError ||
        error instanceof TemplateError ||
        error instanceof TimePatternError
      ) {
        return this.add(path, `the ${what} cannot be used: ${error.message}`);
      }
      throw error;
    }
  }

  pattern(source: string, path: Path, ignoreCase: boolean): Pattern | null {
    return this.attempt(path, 'pattern', () => compilePattern(source, ignoreCase, this.budget));
  }

  stampPattern(source: string, path: Path): StampPattern | null {
    return this.attempt(path, 'time pattern', () => new StampPattern(source));
  }
}
