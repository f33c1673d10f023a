// The licences of the libraries inside the bundle, in one file beside it: most of them ask for that.
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';

/** Folder of the package that a module belongs to. */
function packageFolder(path) {
  for (let folder = dirname(path); folder !== dirname(folder); folder = dirname(folder)) {
    const file = join(folder, 'package.json');
    if (existsSync(file) && JSON.parse(readFileSync(file, 'utf8')).name) return folder;
  }
  return null;
}

export function licences() {
  return {
    name: 'nightledger-licences',
    generateBundle(_options, bundle) {
      const modules = Object.values(bundle).flatMap((chunk) => (chunk.type === 'chunk' ? chunk.moduleIds : []));
      const files = modules
        .map((id) => id.replace(/^\0/, '').split('?')[0])
        .filter((id) => id.includes('node_modules'));
      const folders = new Set(files.map(packageFolder).filter((folder) => folder !== null));
      const parts = [...folders].sort().map((folder) => {
        const { name, version, license } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
        const text = readdirSync(folder).find((file) => /^licen[cs]e/i.test(file));
        const words = text ? readFileSync(join(folder, text), 'utf8').trim() : `Licence: ${license}`;
        return `## ${name} ${version}\n\n${words}\n`;
      });
      this.emitFile({
        type: 'asset',
        fileName: 'LICENCES.md',
        source: `# Libraries in this bundle\n\n${parts.join('\n')}`,
      });
    },
  };
}
