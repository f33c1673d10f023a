import { Option } from 'commander';

/** `--untrusted`, of every command that reads a session folder or a dialect. */
export function untrustedOption(): Option {
  return new Option(
    '--untrusted',
    'the session is from somebody else: follow no links or dialects that lead out ' + 'of its folder',
  );
}
