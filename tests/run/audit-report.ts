/** A published weakness of a package that is used here. */
export interface Advisory {
  /** Address of the advisory; what an exception is named by. */
  address: string;
  packageName: string;
  severity: string;
  title: string;
}

/** What npm said when it was asked about the packages. */
export type AuditAnswer = { kind: 'refused'; why: string } | { kind: 'answered'; advisories: Advisory[] };

/** What is to be said about an answer. */
export interface AuditOutcome {
  lines: string[];
  /** True when it is known that no advisory stands without an explanation. */
  hasPassed: boolean;
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

const getText = (value: unknown): string => (typeof value === 'string' ? value : '');

/**
 * Reads what `npm audit --json` has printed.
 *
 * @param printed the output, whatever it is
 */
export function parseAudit(printed: string): AuditAnswer {
  let report: unknown;
  try {
    report = JSON.parse(printed);
  } catch {
    return { kind: 'refused', why: 'npm printed no report' };
  }
  if (!isRecord(report)) return { kind: 'refused', why: 'npm printed no report' };
  if (isRecord(report.error) || !isRecord(report.vulnerabilities)) {
    const summary = isRecord(report.error) ? getText(report.error.summary) : '';
    return { kind: 'refused', why: getText(report.message) || summary || 'it gave no reason' };
  }
  const found = new Map<string, Advisory>();
  for (const [packageName, entry] of Object.entries(report.vulnerabilities)) {
    const causes = isRecord(entry) && Array.isArray(entry.via) ? entry.via : [];
    for (const cause of causes.filter(isRecord)) {
      const address = getText(cause.url);
      found.set(`${address} ${packageName}`, {
        address,
        packageName,
        severity: getText(cause.severity),
        title: getText(cause.title),
      });
    }
  }
  return { kind: 'answered', advisories: [...found.values()] };
}

/**
 * Judges an answer by the exceptions that are explained.
 *
 * @param exceptions why an advisory does not touch this program, by its address
 */
export function judgeAudit(answer: AuditAnswer, exceptions: Readonly<Record<string, string>>): AuditOutcome {
  if (answer.kind === 'refused') {
    const sentence = `The registry does not answer audits here (${answer.why}), so nothing is known about advisories.`;
    return { lines: [sentence], hasPassed: false };
  }
  const lines = answer.advisories.map(({ address, packageName, severity, title }) => {
    const why = exceptions[address];
    return `${packageName}, ${severity}: ${title} (${address})${why === undefined ? ' — NOT EXPLAINED' : ` — ${why}`}`;
  });
  const known = new Set(answer.advisories.map(({ address }) => address));
  const unused = Object.keys(exceptions).filter((address) => !known.has(address));
  const unexplained = answer.advisories.filter(({ address }) => exceptions[address] === undefined);
  return {
    lines: [
      ...lines,
      ...unused.map((address) => `${address} is explained but no longer found: take the explanation away.`),
      `Advisories: ${answer.advisories.length}; not explained: ${unexplained.length}.`,
    ],
    hasPassed: unexplained.length === 0 && unused.length === 0,
  };
}
