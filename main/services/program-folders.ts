import { fileURLToPath } from 'node:url';

// The bundles in build/main lie as deep below the program's folder as this file does, so one path serves both.
const PROGRAM_FOLDER = new URL('../../', import.meta.url);

/** Folder of the fonts, icons and samples that come with the program. */
export const ASSETS_FOLDER = fileURLToPath(new URL('assets/', PROGRAM_FOLDER));

/** Folder of the built page. */
export const PAGE_FOLDER = fileURLToPath(new URL('build/renderer/', PROGRAM_FOLDER));

/** The program's own package file. */
export const PACKAGE_FILE = fileURLToPath(new URL('package.json', PROGRAM_FOLDER));
