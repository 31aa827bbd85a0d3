import type { BarCutting } from '../engine/bar-count';
import type { EngineContext } from '../engine/context';
import { type GangOffer, getGangOffers, getPinnedPartsPerBlank, type LengthOffer } from '../engine/gang';
import { computeLayout, type LaidBlank } from '../engine/layout';
import { SAME_LENGTH } from '../engine/rounding';

/**
 * Parts per blank for many sections of one plan. The preference among gangs hangs on the lengths on offer alone, and the
 * section only says how long a blank may be; so each set of lengths is worked out once, and each layout too.
 */
export class GangPlanner {
  private readonly preferences = new Map<string, ReadonlyMap<string, readonly GangOffer[]>>();
  private readonly layouts = new Map<string, readonly LaidBlank[]>();
  private readonly context: EngineContext;
  private readonly partingWidth: number;
  private readonly cutting: BarCutting;
  private readonly make: ReadonlyMap<string, number>;

  constructor(context: EngineContext, partingWidth: number, cutting: BarCutting, make: ReadonlyMap<string, number>) {
    this.context = context;
    this.partingWidth = partingWidth;
    this.cutting = cutting;
    this.make = make;
  }

  /**
   * The blanks for bars of these lengths.
   *
   * @param longestBlank longest blank the vises and the machine take, mm
   */
  lay(offers: readonly LengthOffer[], longestBlank: number): { key: string; blanks: readonly LaidBlank[] } {
    const partsPerBlank = this.choose(offers, longestBlank);
    const key = [...partsPerBlank.values()].join(' ');
    const known = this.layouts.get(key);
    if (known !== undefined) return { key, blanks: known };
    const blanks = computeLayout(this.context, this.partingWidth, { partsPerBlank, make: this.make });
    this.layouts.set(key, blanks);
    return { key, blanks };
  }

  private choose(offers: readonly LengthOffer[], longestBlank: number): Map<string, number> {
    const pinned = getPinnedPartsPerBlank(this.context);
    if (pinned !== null) return new Map(this.context.parts.map((part) => [part.id, pinned]));
    const preferences = this.getPreferences(offers);
    return new Map(
      this.context.parts.map((part) => {
        const offer = preferences.get(part.id)?.find((one) => one.blankLength <= longestBlank + SAME_LENGTH);
        return [part.id, offer?.partsPerBlank ?? 1];
      }),
    );
  }

  private getPreferences(offers: readonly LengthOffer[]): ReadonlyMap<string, readonly GangOffer[]> {
    const key = offers.map(({ length, cost }) => `${length}:${cost ?? ''}`).join(' ');
    const known = this.preferences.get(key);
    if (known !== undefined) return known;
    const preferences = new Map(
      this.context.parts.map((part) => [
        part.id,
        getGangOffers(
          this.context,
          this.partingWidth,
          offers,
          this.cutting,
          part,
          this.make.get(part.id) ?? part.quantity,
        ),
      ]),
    );
    this.preferences.set(key, preferences);
    return preferences;
  }
}

/** Offers with costs that only say how the lengths compare, so that bars priced alike by length share one answer. */
export function getRelativeOffers(offers: readonly LengthOffer[]): LengthOffer[] {
  const perLength = offers.map(({ length, cost }) => (cost === null ? null : cost / length));
  const first = perLength[0] ?? null;
  const isProportional = perLength.every(
    (rate) => rate === null || (first !== null && Math.abs(rate - first) <= 1e-6 * Math.abs(first)),
  );
  return isProportional ? offers.map(({ length }) => ({ length, cost: length })) : [...offers];
}
