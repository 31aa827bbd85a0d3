// Functions that Chromium 83 and Node 12 lack: of the language, of the page, of Node.
import 'core-js/stable';

if (typeof Element !== 'undefined') {
  Element.prototype.replaceChildren ??= function replaceChildren(this: Element, ...nodes: (Node | string)[]): void {
    this.textContent = '';
    this.append(...nodes);
  };
}

if (typeof Buffer !== 'undefined' && !Buffer.isEncoding('base64url')) {
  const write = Buffer.prototype.toString;
  Buffer.prototype.toString = function encode(this: Buffer, encoding?: BufferEncoding, ...range: number[]): string {
    if (encoding !== 'base64url') return write.call(this, encoding, ...range);
    // RFC 4648, section 5.
    return write
      .call(this, 'base64', ...range)
      .replace(/=+$/, '')
      .replace(/\+/g, '-')
      .replace(/\//g, '_');
  };
}
