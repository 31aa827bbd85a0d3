/** A small generator of chance (mulberry32), so that a run can be repeated by its seed. */
export function createChance(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

const TOKENS = [
  '0',
  '-1',
  '1e308',
  '1e-308',
  'NaN',
  '-',
  '',
  '\n',
  '\r\n',
  '0\nSECTION\n',
  '0\nENDSEC\n',
  '0\nEOF\n',
  '0\nPOLYLINE\n',
  '0\nINSERT\n2\nINNER\n',
  '70\n32767\n',
  '71\n32767\n',
  '41\n0\n',
  '210\n1\n',
  '999\nx\n',
  'BLOCK',
  'ENDBLK',
  '\u0000',
  '\uFEFF',
  '<',
  '>',
  '"',
  '&amp;',
  '&x;',
  '</g>',
  '<g>',
  '<use href="#a"/>',
  'M',
  'A1 1 0 11',
  'z',
  '%',
  'e',
  '.',
  ',,',
  ';',
  '"\n',
  '\t',
];

/** Bytes with a few changes: overwritten, cut out, doubled, put in, or cut short. */
export function mutate(bytes: Uint8Array, chance: () => number): Uint8Array {
  let content = Buffer.from(bytes);
  const changes = 1 + Math.floor(chance() ** 4 * 8);
  const pick = (below: number): number => Math.floor(chance() * below);
  for (let change = 0; change < changes; change += 1) {
    const at = pick(content.length + 1);
    const length = pick(Math.min(200, content.length - at) + 1);
    switch (pick(6)) {
      case 0:
        if (at < content.length) content[at] = pick(256);
        break;
      case 1:
        content = Buffer.concat([content.subarray(0, at), content.subarray(at + length)]);
        break;
      case 2:
        content = Buffer.concat([content.subarray(0, at + length), content.subarray(at)]);
        break;
      case 3:
        content = Buffer.concat([
          content.subarray(0, at),
          Buffer.from(TOKENS[pick(TOKENS.length)] ?? ''),
          content.subarray(at),
        ]);
        break;
      case 4: {
        const lines = content.toString('latin1').split('\n');
        const line = pick(lines.length);
        lines[line] = TOKENS[pick(TOKENS.length)] ?? '';
        content = Buffer.from(lines.join('\n'), 'latin1');
        break;
      }
      default:
        content = chance() < 0.3 ? content.subarray(0, at) : content;
    }
  }
  return content;
}
