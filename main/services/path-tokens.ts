import { randomBytes } from 'node:crypto';
import { ExpectedProblem } from './expected-problem';

export type PathKind = 'file' | 'folder';

/** Names for paths that the page may hold: a token tells it nothing and can only name what the host once gave it. */
export interface PathTokens {
  /** The token of a path; the same one each time. */
  give(kind: PathKind, path: string): string;
  /** @throws ExpectedProblem when no such token was given */
  take(kind: PathKind, token: string): string;
}

export function createPathTokens(): PathTokens {
  const tokens = new Map<string, string>();
  const paths = new Map<string, string>();
  return {
    give(kind, path) {
      const key = `${kind}:${path}`;
      const known = tokens.get(key);
      if (known !== undefined) return known;
      const token = `${kind}-${randomBytes(18).toString('base64url')}`;
      tokens.set(key, token);
      paths.set(token, path);
      return token;
    },
    take(kind, token) {
      const path = token.startsWith(`${kind}-`) ? paths.get(token) : undefined;
      if (path === undefined) {
        throw new ExpectedProblem(
          'unknown-token',
          `This ${kind} was not opened in this session, so choose it again.`,
          '',
        );
      }
      return path;
    },
  };
}
