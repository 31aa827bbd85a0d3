/** What one entry of a list is called; a list of another name is called by that name. */
const ENTRY_WORDS: Readonly<Record<string, string>> = {
  parts: 'part',
  stations: 'station',
  holes: 'hole',
  keepOuts: 'keep-out',
  layout: 'blank',
  slots: 'place',
  vises: 'vise',
  tabs: 'tab',
  cuts: 'cut',
  accepted: 'accepted finding',
  recorded: 'recorded result',
  materials: 'material',
  sizeClasses: 'size class',
  widthBands: 'width band',
  thicknessBands: 'thickness band',
  skinBands: 'skin band',
  cornerBands: 'corner band',
  bars: 'bar',
  lengths: 'length',
  rack: 'remnant',
  jawSets: 'jaw set',
  parallels: 'pair of parallels',
  tools: 'tool',
  holders: 'holder',
  saws: 'saw',
  bowMeasurements: 'bow measurement',
  asSupplied: 'as-supplied face',
};

/** Unit endings of field names, longest first where one is the ending of another. */
const UNIT_ENDINGS: readonly (readonly [ending: string, unit: string])[] = [
  ['Mm2PerMin', 'mm²/min'],
  ['MPerMin', 'm/min'],
  ['KgM3', 'kg/m³'],
  ['MPa', 'MPa'],
  ['Rpm', 'rpm'],
  ['Deg', '°'],
  ['Kw', 'kW'],
  ['Nm', 'N·m'],
  ['N', 'N'],
];

/** Containers that say nothing to a reader. */
const SILENT_KEYS = new Set(['pinned']);

/** `clampForceN` as "clamp force (N)", `barId` as "bar". */
function getNameWords(name: string): string {
  const unit = UNIT_ENDINGS.find(([ending]) => name.endsWith(ending));
  const bare = unit === undefined ? name.replace(/Id$/, '') : name.slice(0, -unit[0].length);
  const words = bare.replace(/([a-z0-9])([A-Z])/g, '$1 $2').toLowerCase();
  return unit === undefined ? words : `${words} (${unit[1]})`;
}

/**
 * A field of a plan or shop in words.
 *
 * @param path keys and indexes from the root
 * @example getFieldWords(['parts', 1, 'length']) // "Part 2, length"
 * @example getFieldWords(['layout', 'pinned', 0, 'slots', 2, 'x']) // "Blank 1, place 3, x"
 */
export function getFieldWords(path: readonly PropertyKey[]): string {
  const named = path.filter((key) => !SILENT_KEYS.has(String(key)));
  const words: string[] = [];
  for (const [index, key] of named.entries()) {
    const next = named[index + 1];
    if (typeof key === 'number') continue;
    const name = String(key);
    words.push(
      typeof next === 'number' ? `${ENTRY_WORDS[name] ?? getNameWords(name)} ${next + 1}` : getNameWords(name),
    );
  }
  const text = words.join(', ');
  return text.slice(0, 1).toUpperCase() + text.slice(1);
}
