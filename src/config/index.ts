export * from './types.js';
export { parseRig } from './rig-file.js';
export { ConfigError, parseYaml, readYaml, type YamlFile } from './yaml-file.js';
export { parseHours } from './durations.js';
export { NO_BOOK, parseGoals } from './goals-file.js';
export { starterYaml, type StarterFacts } from './starter.js';
export { placeZone } from './place-zone.js';
