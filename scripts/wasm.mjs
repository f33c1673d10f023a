// Writes src/gather/lines/text-scan-code.ts from the text of the WebAssembly module beside it, text-scan.wat.
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import wabt from 'wabt';

const folder = fileURLToPath(new URL('../src/gather/lines/', import.meta.url));

const tools = await wabt();
const module = tools.parseWat('text-scan.wat', readFileSync(`${folder}text-scan.wat`, 'utf8'), { simd: true });
module.validate();
const code = Buffer.from(module.toBinary({}).buffer).toString('base64');
const lines = code.match(/.{1,110}/g).map((line) => `  '${line}'`);
writeFileSync(
  `${folder}text-scan-code.ts`,
  `/** The module of text-scan.wat, made by \`npm run wasm\`: base64. */\nexport const TEXT_SCAN =\n${lines.join(' +\n')};\n`,
);
