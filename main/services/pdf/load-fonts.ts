import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { ASSETS_FOLDER } from '../program-folders';

/** The fonts of a PDF as file contents: two weights, and fallbacks asked in turn for what those lack. */
export interface PdfFonts {
  regular: Uint8Array;
  semibold: Uint8Array;
  fallbacks: Uint8Array[];
}

let loaded: Promise<PdfFonts> | undefined;

/** Reads the fonts that ship with the program; later calls share the first reading. */
export function loadPdfFonts(): Promise<PdfFonts> {
  loaded ??= readFonts();
  return loaded;
}

async function readFonts(): Promise<PdfFonts> {
  const read = (name: string): Promise<Uint8Array> => readFile(join(ASSETS_FOLDER, 'fonts', name));
  const [regular, semibold, ...fallbacks] = await Promise.all([
    read('IBMPlexSans-Regular.ttf'),
    read('IBMPlexSans-SemiBold.ttf'),
    read('DejaVuSans.ttf'),
    read('NotoSansThai-Regular.ttf'),
    read('NotoSansDevanagari-Regular.ttf'),
    read('NotoSansBengali-Regular.ttf'),
    read('NotoSansTamil-Regular.ttf'),
    read('DroidSansFallback.ttf'),
  ]);
  return { regular, semibold, fallbacks };
}
