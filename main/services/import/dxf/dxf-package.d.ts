/** The reader of DXF text; it comes without types, and what it gives is looked at as unknown. */
declare module 'dxf' {
  export function parseString(text: string): unknown;
}
