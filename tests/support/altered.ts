import type { Night } from '../../src/model/index.js';

type Alterations = {
  readonly [Part in 'gathered' | 'timeline' | 'sky' | 'accounts' | 'findings']?: Partial<Night[Part]>;
};

/** The night with some of what its stages gave altered. */
export function altered(night: Night, { gathered, timeline, sky, accounts, findings }: Alterations): Night {
  return {
    ...night,
    gathered: { ...night.gathered, ...gathered },
    timeline: { ...night.timeline, ...timeline },
    sky: { ...night.sky, ...sky },
    accounts: { ...night.accounts, ...accounts },
    findings: { ...night.findings, ...findings },
  };
}
