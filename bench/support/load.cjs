// Loads bundled stages as the program loads its modules: with the compiled code of the run before.
const { join } = require('node:path');

/** @param {string} dist what `bundle` made */
exports.loader = (dist) => {
  const { CompiledModules } = require(join(dist, 'start/compiled-modules.js'));
  const modules = new CompiledModules(dist, join(dist, 'code/bench.code'));
  process.on('exit', () => modules.keep());
  return (path) => modules.load(path);
};
