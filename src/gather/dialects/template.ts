import type { Lookup } from './formula.js';

/** A text with placeholders, such as `{folder}/{name}.fits`; `{{` and `}}` stand for braces. */
export interface Template {
  readonly source: string;
  /** The names it uses. */
  readonly names: ReadonlySet<string>;
  /** The text, or `null` when no placeholder in it has a value. */
  fill(lookup: Lookup): string | null;
}

/** An invalid template, and the reason. */
export class TemplateError extends Error {}

/** @throws TemplateError for an unmatched brace */
export function compileTemplate(source: string): Template {
  const parts = Array.from(
    source.matchAll(/\{\{|\}\}|\{([^{}]+)\}|[^{}]+|[{}]/g),
    ([text, name]): { name: string } | { text: string } => {
      if (name !== undefined) return { name };
      if (text === '{' || text === '}')
        throw new TemplateError(`an unmatched brace; write ${text}${text} for the character itself`);
      return { text: text === '{{' || text === '}}' ? text.slice(0, 1) : text };
    },
  );
  const names = new Set(parts.flatMap((part) => ('name' in part ? [part.name] : [])));
  const fill = (lookup: Lookup): string | null => {
    let filled = names.size === 0;
    const text = parts
      .map((part) => {
        if ('text' in part) return part.text;
        const value = lookup(part.name);
        if (value !== undefined) filled = true;
        return value === undefined ? '' : String(value);
      })
      .join('');
    return filled ? text : null;
  };
  return { source, names, fill };
}
