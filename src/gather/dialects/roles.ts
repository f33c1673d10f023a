import type { CompiledDialect, GuidingRule, LineRule, SectionRule, When } from './compiled.js';
import type { Pattern } from './pattern/pattern.js';

/** The purpose of a pattern on whole lines. */
export type Role =
  | { readonly kind: 'date'; readonly pattern: Pattern }
  | { readonly kind: 'constant'; readonly pattern: Pattern; readonly name: string }
  | { readonly kind: 'section'; readonly pattern: Pattern; readonly section: SectionRule }
  | { readonly kind: 'section-end'; readonly pattern: Pattern }
  | { readonly kind: 'line'; readonly pattern: Pattern; readonly rule: LineRule; readonly index: number }
  | { readonly kind: 'guiding'; readonly pattern: Pattern; readonly rule: GuidingRule }
  | { readonly kind: 'ignore'; readonly pattern: Pattern; readonly index: number };

/** The roles whose lines set context for others. */
export type Context = Extract<Role, { kind: 'date' | 'constant' | 'section' | 'section-end' }>;

/** Whether the role's lines set context for others. */
export function isContext(role: Role | undefined): boolean {
  return role?.kind === 'date' || role?.kind === 'constant' || role?.kind === 'section' || role?.kind === 'section-end';
}

/** The dialect's patterns on whole lines, in the order they are tried. */
export function rolesOf(dialect: CompiledDialect): Role[] {
  const {
    guiding,
    time: { date },
  } = dialect;
  const onText = (when: When | null): Pattern[] => (when?.kind === 'text' ? [when.pattern] : []);
  return [
    ...(date.from === 'header' ? [{ kind: 'date' as const, pattern: date.when }] : []),
    ...dialect.constants.flatMap(({ name, when }) =>
      when === null ? [] : [{ kind: 'constant' as const, pattern: when, name }],
    ),
    ...dialect.sections.flatMap((section): Role[] => [
      ...(section.end === null ? [] : [{ kind: 'section-end' as const, pattern: section.end }]),
      { kind: 'section', pattern: section.begin, section },
    ]),
    ...dialect.lines.flatMap((rule, index) =>
      onText(rule.when).map((pattern) => ({ kind: 'line' as const, pattern, rule, index })),
    ),
    ...(guiding === null
      ? []
      : onText(guiding.when).map((pattern) => ({ kind: 'guiding' as const, pattern, rule: guiding }))),
    ...dialect.ignore.flatMap(({ when }, index) =>
      onText(when).map((pattern) => ({ kind: 'ignore' as const, pattern, index })),
    ),
  ];
}
