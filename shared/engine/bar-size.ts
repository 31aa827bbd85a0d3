import type { BarOffer, SizeBand, SizeClass } from '../model/shop';
import type { Limits } from './figure';
import { SAME_LENGTH } from './rounding';

/**
 * The band a size falls in: over `over`, up to and including `upTo`. A size past the last band takes the last
 * (the widest) one, so that an unlisted size is never taken as exact.
 *
 * @param size nominal, mm
 * @returns null when the class has no bands
 */
export function getSizeBand(size: number, bands: readonly SizeBand[]): SizeBand | null {
  const band = bands.find(({ over, upTo }) => size > over + SAME_LENGTH && size <= upTo + SAME_LENGTH);
  if (band !== undefined) return band;
  return bands.reduce<SizeBand | null>((last, next) => (last === null || next.upTo > last.upTo ? next : last), null);
}

/** First entry whose `upTo` is not under the size; the last one for a size past them all; null for an empty table. */
export function getUpTo<T extends { upTo: number }>(size: number, entries: readonly T[]): T | null {
  return entries.find(({ upTo }) => size <= upTo + SAME_LENGTH) ?? entries.at(-1) ?? null;
}

/** A size with the deviations of its band, mm. */
export function getLimits(nominal: number, band: SizeBand | null): Limits {
  if (band === null) return { nominal, least: nominal, most: nominal };
  return { nominal, least: Math.max(0, nominal - band.minus), most: nominal + band.plus };
}

/** A measured size: no spread. */
export function getMeasuredLimits(size: number): Limits {
  return { nominal: size, least: size, most: size };
}

/** Limits of a bar's width and thickness as delivered, mm: measured where it was measured, else by its class. */
export function getBarLimits(
  bar: BarOffer,
  sizeClass: SizeClass | null,
): { width: Limits; thickness: Limits; measured: boolean } {
  if (bar.measured !== null) {
    return {
      width: getMeasuredLimits(bar.measured.width),
      thickness: getMeasuredLimits(bar.measured.thickness),
      measured: true,
    };
  }
  const widthBand = getSizeBand(bar.width, sizeClass?.widthBands ?? []);
  const thicknessBand =
    sizeClass?.bandBy === 'width' ? widthBand : getSizeBand(bar.thickness, sizeClass?.thicknessBands ?? []);
  return {
    width: getLimits(bar.width, widthBand),
    thickness: getLimits(bar.thickness, thicknessBand),
    measured: false,
  };
}
