/** Names of a rig file, in the order in which they are looked for. */
export const RIG_FILES = ['rig.yaml', 'rig.yml'] as const;
