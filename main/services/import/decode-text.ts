/** Encodings of old files: the code page that a DXF names in its header, as `TextDecoder` knows it. */
const CODE_PAGE = /\$DWGCODEPAGE\s+3\s+(?:ANSI_|DOS)?([a-z0-9_-]+)/iu;

/** The header stands at the front; this much of it is looked through, bytes. */
const HEAD_BYTES = 20_000;

/**
 * Text of a file whose encoding is not told: by its byte order mark, else UTF-8 where it is valid, else the code page that
 * it names, else Windows-1252, which no byte is invalid in.
 */
export function decodeText(bytes: Uint8Array): string {
  const mark = getMarkedEncoding(bytes);
  if (mark !== null) return new TextDecoder(mark).decode(bytes);
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return decodeCodePage(bytes);
  }
}

function getMarkedEncoding([first, second, third]: Uint8Array): string | null {
  if (first === 0xef && second === 0xbb && third === 0xbf) return 'utf-8';
  if (first === 0xff && second === 0xfe) return 'utf-16le';
  return first === 0xfe && second === 0xff ? 'utf-16be' : null;
}

function decodeCodePage(bytes: Uint8Array): string {
  const latin = new TextDecoder('windows-1252');
  const page = CODE_PAGE.exec(latin.decode(bytes.subarray(0, HEAD_BYTES)))?.[1];
  if (page === undefined) return latin.decode(bytes);
  for (const label of [`windows-${page}`, page, page.replace('ISO8859_', 'iso-8859-')]) {
    try {
      return new TextDecoder(label).decode(bytes);
    } catch {
      // No such encoding under this name.
    }
  }
  return latin.decode(bytes);
}
