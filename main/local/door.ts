import { randomBytes, timingSafeEqual } from 'node:crypto';
import type { IncomingHttpHeaders } from 'node:http';

/** Why a request is turned away, in words for the person who sees it. */
export type DoorAnswer = { ok: true } | { ok: false; status: 403 | 421; sentence: string };

/** Lets in only the one browser that was given the address, and only pages that this program itself has served. */
export interface Door {
  /** The token for the address; good once. */
  readonly token: string;
  /** Spends the token. @returns the cookie to set, or `null` when the token is wrong or spent */
  redeem(token: string): string | null;
  /** Checks a request for a page or file. */
  checkVisit(headers: IncomingHttpHeaders): DoorAnswer;
  /** Checks a host call, which must come from the page itself. */
  checkCall(headers: IncomingHttpHeaders): DoorAnswer;
  /** Checks who asks and nothing else, as for an address whose token is spent. */
  hasCookie(headers: IncomingHttpHeaders): boolean;
  /** Checks that the request names this host and no other: a rebound name shows here. */
  checkHost(headers: IncomingHttpHeaders): DoorAnswer;
}

const FOREIGN: DoorAnswer = {
  ok: false,
  status: 403,
  sentence: 'This request did not come from the planner’s own page, so it is not answered.',
};
const UNKNOWN: DoorAnswer = {
  ok: false,
  status: 403,
  sentence:
    'This window was not opened with the address that Kerfgrip printed. Start Kerfgrip again for a new address.',
};
const WRONG_NAME: DoorAnswer = {
  ok: false,
  status: 421,
  sentence: 'Kerfgrip answers only by the address that it printed.',
};

function getIsSame(a: string, b: string): boolean {
  const left = Buffer.from(a);
  const right = Buffer.from(b);
  return left.length === right.length && timingSafeEqual(left, right);
}

/**
 * @param port the port that the host listens on; a cookie is seen by every port of a machine, so its name carries it
 */
export function createDoor(port: number): Door {
  const hostName = `127.0.0.1:${port}`;
  const origin = `http://${hostName}`;
  const cookieName = `kerfgrip-${port}`;
  const token = randomBytes(24).toString('base64url');
  const secret = randomBytes(32).toString('base64url');
  let isSpent = false;

  const hasCookie = (headers: IncomingHttpHeaders): boolean => {
    const pairs = (headers.cookie ?? '').split(';').map((pair) => pair.trim());
    const value = pairs.find((pair) => pair.startsWith(`${cookieName}=`))?.slice(cookieName.length + 1);
    return value !== undefined && getIsSame(value, secret);
  };
  const checkHost = (headers: IncomingHttpHeaders): DoorAnswer =>
    headers.host === hostName ? { ok: true } : WRONG_NAME;
  const getIsOwnPage = (headers: IncomingHttpHeaders): boolean => {
    const site = headers['sec-fetch-site'];
    const isOwnSite = site === undefined || site === 'same-origin' || site === 'none';
    return isOwnSite && (headers.origin === undefined || headers.origin === origin);
  };
  const checkVisit = (headers: IncomingHttpHeaders): DoorAnswer => {
    const host = checkHost(headers);
    if (!host.ok) return host;
    if (!getIsOwnPage(headers)) return FOREIGN;
    return hasCookie(headers) ? { ok: true } : UNKNOWN;
  };

  return {
    token,
    hasCookie,
    checkHost,
    checkVisit,
    redeem(given) {
      if (isSpent || !getIsSame(given, token)) return null;
      isSpent = true;
      return `${cookieName}=${secret}; HttpOnly; SameSite=Strict; Path=/`;
    },
    checkCall(headers) {
      const visit = checkVisit(headers);
      if (!visit.ok) return visit;
      // A form of another page can post without a preflight, but neither as JSON nor with our origin.
      const isJson = /^application\/json\s*(;|$)/i.test(headers['content-type'] ?? '');
      return headers.origin === origin && isJson ? { ok: true } : FOREIGN;
    },
  };
}
