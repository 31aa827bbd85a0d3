// Writes the program's icons anew from assets/icons/kerfgrip.svg: npx tsx tests/data/write-icons.ts
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { chromium } from '@playwright/test';
import { findTestBrowser } from '../run/find-test-browser';
import { getTestBrowserFlags } from '../run/test-browser-flags';

const FOLDER = fileURLToPath(new URL('../../assets/icons/', import.meta.url));
const SIZES = [16, 32, 48, 64, 128, 256, 512, 1024] as const;

type Pictures = ReadonlyMap<number, Buffer>;

async function drawPictures(svg: string): Promise<Pictures> {
  const found = findTestBrowser();
  if ('problem' in found) throw new Error(found.problem);
  const browser = await chromium.launch({ executablePath: found.browser, args: getTestBrowserFlags() });
  const page = await browser.newPage();
  const pictures = new Map<number, Buffer>();
  for (const size of SIZES) {
    await page.setViewportSize({ width: size, height: size });
    const sized = svg.replace(/width="\d+" height="\d+"/, `width="${size}" height="${size}" style="display:block"`);
    await page.setContent(`<body style="margin:0">${sized}</body>`);
    pictures.set(size, await page.screenshot({ omitBackground: true }));
  }
  await browser.close();
  return pictures;
}

function getPicture(pictures: Pictures, size: number): Buffer {
  const picture = pictures.get(size);
  if (picture === undefined) throw new Error(`There is no picture of ${size} pixels.`);
  return picture;
}

/** An .ico of PNG pictures: a header, an entry of 16 bytes a picture, the pictures (Windows ICO format). */
function buildIco(pictures: Pictures, sizes: readonly number[]): Buffer {
  const head = Buffer.alloc(6 + 16 * sizes.length);
  head.writeUInt16LE(1, 2);
  head.writeUInt16LE(sizes.length, 4);
  let offset = head.length;
  sizes.forEach((size, index) => {
    const { length } = getPicture(pictures, size);
    const at = 6 + 16 * index;
    // 0 stands for 256.
    head.writeUInt8(size % 256, at);
    head.writeUInt8(size % 256, at + 1);
    head.writeUInt16LE(1, at + 4);
    head.writeUInt16LE(32, at + 6);
    head.writeUInt32LE(length, at + 8);
    head.writeUInt32LE(offset, at + 12);
    offset += length;
  });
  return Buffer.concat([head, ...sizes.map((size) => getPicture(pictures, size))]);
}

/** Types of PNG pictures in an .icns by their size in pixels (Apple Icon Image format). */
const ICNS_TYPES = { 16: 'icp4', 32: 'icp5', 64: 'icp6', 128: 'ic07', 256: 'ic08', 512: 'ic09', 1024: 'ic10' } as const;

function buildIcns(pictures: Pictures): Buffer {
  const blocks = Object.entries(ICNS_TYPES).map(([size, type]) => {
    const picture = getPicture(pictures, Number(size));
    const head = Buffer.from(`${type}0000`, 'latin1');
    head.writeUInt32BE(picture.length + 8, 4);
    return Buffer.concat([head, picture]);
  });
  const all = Buffer.concat(blocks);
  const head = Buffer.from('icns0000', 'latin1');
  head.writeUInt32BE(all.length + 8, 4);
  return Buffer.concat([head, all]);
}

const pictures = await drawPictures(readFileSync(`${FOLDER}kerfgrip.svg`, 'utf8'));
mkdirSync(`${FOLDER}png`, { recursive: true });
for (const size of [16, 32, 48, 64, 128, 256, 512]) {
  writeFileSync(`${FOLDER}png/${size}x${size}.png`, getPicture(pictures, size));
}
writeFileSync(`${FOLDER}kerfgrip.ico`, buildIco(pictures, [16, 32, 48, 64, 128, 256]));
writeFileSync(`${FOLDER}kerfgrip.icns`, buildIcns(pictures));
