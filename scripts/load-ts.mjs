// Loads a TypeScript module of the project into a script, without compiling the tests.
import { fileURLToPath } from 'node:url';
import { createServer } from 'vite';
import { templates } from './bundle/templates.mjs';

export const root = fileURLToPath(new URL('..', import.meta.url)).replace(/[\\/]$/, '');

/** Calls `use` with the module; `path` is from the project's top, such as /src/record/schema.ts. */
export async function withModule(path, use) {
  const server = await createServer({
    root,
    configFile: false,
    plugins: [templates(root)],
    appType: 'custom',
    logLevel: 'error',
    server: { middlewareMode: true, hmr: false, ws: false, watch: null },
    optimizeDeps: { noDiscovery: true },
  });
  try {
    return await use(await server.ssrLoadModule(path));
  } finally {
    await server.close();
  }
}
