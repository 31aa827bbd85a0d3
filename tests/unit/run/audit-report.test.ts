import { describe, expect, test } from 'vitest';
import { judgeAudit, parseAudit } from '../../run/audit-report';

const ADDRESS = 'https://advisories.example/1';

const REPORT = JSON.stringify({
  auditReportVersion: 2,
  vulnerabilities: {
    'deep-thing': {
      name: 'deep-thing',
      severity: 'high',
      via: [{ source: 1, name: 'deep-thing', title: 'Reads too far', url: ADDRESS, severity: 'high', range: '<2' }],
    },
    // What only depends on it names it and has no advisory of its own.
    'outer-thing': { name: 'outer-thing', severity: 'high', via: ['deep-thing'] },
  },
});

describe('the answer of an audit', () => {
  test('is its advisories, each once', () => {
    expect(parseAudit(REPORT)).toEqual({
      kind: 'answered',
      advisories: [{ address: ADDRESS, packageName: 'deep-thing', severity: 'high', title: 'Reads too far' }],
    });
  });

  test('is none when nothing is known against the packages', () => {
    expect(judgeAudit(parseAudit('{"vulnerabilities":{}}'), {})).toEqual({
      lines: ['Advisories: 0; not explained: 0.'],
      hasPassed: true,
    });
  });

  test('fails when an advisory is not explained, and passes when it is', () => {
    expect(judgeAudit(parseAudit(REPORT), {})).toEqual({
      lines: [`deep-thing, high: Reads too far (${ADDRESS}) — NOT EXPLAINED`, 'Advisories: 1; not explained: 1.'],
      hasPassed: false,
    });
    const explained = judgeAudit(parseAudit(REPORT), { [ADDRESS]: 'only at build time' });
    expect(explained.lines[0]).toContain('— only at build time');
    expect(explained.hasPassed).toBe(true);
  });

  test('fails when an explanation has outlived its advisory', () => {
    const { lines, hasPassed } = judgeAudit(parseAudit('{"vulnerabilities":{}}'), { [ADDRESS]: 'only at build time' });
    expect(lines[0]).toContain('no longer found');
    expect(hasPassed).toBe(false);
  });

  test.each([
    ['a registry that takes no audits', '{"message":"405 Method Not Allowed","error":{"summary":""}}', '405 Method'],
    ['no network', '{"error":{"code":"ENOTFOUND","summary":"getaddrinfo ENOTFOUND"}}', 'getaddrinfo ENOTFOUND'],
    ['something else', 'npm error', 'no report'],
    ['another report', '[]', 'no report'],
  ])('is a refusal in words from %s, and never passes', (_, printed, why) => {
    const { lines, hasPassed } = judgeAudit(parseAudit(printed), {});
    expect(lines).toEqual([expect.stringContaining(why)]);
    expect(lines[0]).toContain('nothing is known about advisories');
    expect(hasPassed).toBe(false);
  });
});
