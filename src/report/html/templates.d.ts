/** The page templates by file name, compiled by `scripts/bundle/templates.mjs`. */
declare module 'virtual:templates' {
  export const templates: Readonly<Record<string, (view: object) => string>>;
}
