/** A term of this report, and its meaning. */
export interface GlossaryEntry {
  readonly term: string;
  readonly meaning: string;
  /** A term for nights with several trains. */
  readonly ofSeveral?: true;
}

/** Terms that readers may not know in this sense, as far as a night with this many trains uses them. */
export function glossaryOf(trains: number): readonly GlossaryEntry[] {
  return trains > 1 ? GLOSSARY : GLOSSARY.filter(({ ofSeveral }) => ofSeveral !== true);
}

const GLOSSARY: readonly GlossaryEntry[] = [
  { term: 'account', meaning: 'one class of time in a train’s ledger; every second is in exactly one.' },
  { term: 'companion', meaning: 'a train that rides along: it neither steers the mount nor guides.', ofSeveral: true },
  { term: 'dither wait', meaning: 'from a train’s own readiness for a dither to the mount’s move.' },
  {
    term: 'effective integration',
    meaning:
      'kept time expressed as the time under a dark, clear sky at the zenith that would give the same ' +
      'signal-to-noise ratio.',
  },
  { term: 'holder', meaning: 'the train that was ready last for a dither: the others waited for it.', ofSeveral: true },
  {
    term: 'interruption',
    meaning: 'a stretch in which an open shutter is harmed: mount moving, guiding off or rough.',
  },
  { term: 'pilot', meaning: 'the train whose computer steers the mount and the guiding.', ofSeveral: true },
  { term: 'train', meaning: 'telescope, camera and filter wheel that take one stream of frames.' },
  { term: 'twin gain', meaning: 'kept integration of all trains ÷ that of the better one alone.', ofSeveral: true },
  { term: 'verdict', meaning: 'kept, doubtful or lost, each with its cause and evidence.' },
];
