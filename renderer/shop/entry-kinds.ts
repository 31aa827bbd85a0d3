import type { Shop, Tool } from '../../shared/model/shop';
import { formatLength } from '../../shared/units/format';
import type { LengthUnits } from '../../shared/units/length-units';
import { formatQuantity } from '../../shared/units/quantity';
import {
  check,
  choice,
  type Entry,
  type FieldGroup,
  type ListKey,
  length,
  maybeQuantity,
  quantity,
  size,
  source,
  text,
} from './field-spec';
import { getToolGroups } from './tool-fields';

export interface EntryKind<K extends ListKey> {
  /** Of the list, and of one entry in a sentence. */
  readonly title: string;
  readonly one: string;
  readonly about: string;
  readonly prefix: string;
  readonly getName: (entry: Entry<K>, shop: Shop, units: LengthUnits) => string;
  readonly getFacts: (entry: Entry<K>, shop: Shop, units: LengthUnits) => string;
  readonly getGroups: (entry: Entry<K>) => readonly FieldGroup[];
  /** What a first entry looks like where the list is empty; null where the program comes with some. */
  readonly first: Omit<Entry<K>, 'id'> | null;
}

const METAL_GROUPS = {
  lowCarbonSteel: 'low-carbon steel',
  carbonSteel: 'carbon steel',
  alloySteel: 'alloy steel',
  stainless: 'stainless steel',
  aluminium: 'aluminium',
  copperAlloy: 'copper alloy',
  castIron: 'cast iron',
  titanium: 'titanium',
};

const SURFACES = { drawn: 'drawn', rolled: 'rolled', sawn: 'sawn', ground: 'ground', milled: 'milled' };

const band = { over: 0, upTo: 25, minus: 0.1, plus: 0 };
const BAND_COLUMNS = [length('Over', 'over'), size('Up to', 'upTo'), length('Minus', 'minus'), length('Plus', 'plus')];

const say = (mm: number, units: LengthUnits): string => formatLength(mm, units, { fractions: 64, trim: true });

/** Every list of the shop: how its entries are called and what is asked of them. */
export const ENTRY_KINDS: { readonly [K in ListKey]: EntryKind<K> } = {
  materials: {
    title: 'Materials',
    one: 'material',
    about: 'Strengths are typical minimums; cutting constants come in two families that differ by half.',
    prefix: 'material',
    getName: (entry) => entry.name,
    getFacts: (entry, _shop, units) =>
      `${entry.designation}, yield ${formatQuantity(entry.yieldStrengthMPa, 'stress', units)}`,
    first: null,
    getGroups: () => [
      {
        title: 'What it is',
        fields: [
          text('Name', 'name'),
          text('Designation', 'designation'),
          choice('Group', METAL_GROUPS, 'metalGroup'),
          source,
        ],
      },
      {
        title: 'Strength',
        fields: [
          quantity('Density', 'density', 'densityKgM3'),
          quantity('Elastic modulus', 'stress', 'youngsModulusMPa'),
          quantity('Yield strength', 'stress', 'yieldStrengthMPa'),
          quantity('Tensile strength', 'stress', 'tensileStrengthMPa'),
          quantity('Jaw friction, times', 'ratio', 'jawFrictionFactor'),
        ],
      },
      {
        title: 'Cutting force',
        fields: [
          choice('Family', { vdi3323: 'VDI 3323 groups', germanTextbook: 'German textbook' }, 'kienzle', 'family'),
          quantity('kc1.1', 'stress', 'kienzle', 'kc11MPa'),
          quantity('mc', 'ratio', 'kienzle', 'mc'),
          { kind: 'text', label: 'Source of these', path: ['kienzle', 'source'], lines: 2 },
        ],
      },
    ],
  },
  sizeClasses: {
    title: 'Size classes',
    one: 'size class',
    about: 'How far a bar may be off its nominal size, its skin, corners and straightness.',
    prefix: 'class',
    getName: (entry) => entry.name,
    getFacts: (entry) => entry.standard,
    first: null,
    getGroups: () => [
      {
        title: 'What it is',
        fields: [
          text('Name', 'name'),
          text('Standard', 'standard'),
          choice(
            'Form',
            {
              coldFinished: 'cold finished',
              hotRolled: 'hot rolled',
              ground: 'ground',
              extruded: 'extruded',
              measured: 'measured',
            },
            'form',
          ),
          choice('Surface', SURFACES, 'surface'),
          choice('Band taken by', { each: 'each side by its own', width: 'the width for both' }, 'bandBy'),
          source,
        ],
      },
      {
        title: 'Width may be off by',
        fields: [{ kind: 'rows', label: 'Width bands', path: ['widthBands'], first: band, columns: BAND_COLUMNS }],
      },
      {
        title: 'Thickness may be off by',
        fields: [
          { kind: 'rows', label: 'Thickness bands', path: ['thicknessBands'], first: band, columns: BAND_COLUMNS },
        ],
      },
      {
        title: 'Skin to machine off each surface',
        fields: [
          {
            kind: 'rows',
            label: 'Skin bands',
            path: ['skinBands'],
            first: { upTo: 25, skin: 1 },
            columns: [size('Up to', 'upTo'), length('Skin', 'skin')],
          },
        ],
      },
      {
        title: 'Largest corner radius',
        fields: [
          {
            kind: 'rows',
            label: 'Corner bands',
            path: ['cornerBands'],
            first: { upTo: 25, radius: 1 },
            columns: [size('Up to', 'upTo'), length('Radius', 'radius')],
          },
        ],
      },
      {
        title: 'Straightness as delivered',
        fields: [
          quantity('Bow over length', 'fraction', 'straightness', 'perLength'),
          length('Bow', 'straightness', 'bow'),
          size('over a length of', 'straightness', 'overLength'),
          { kind: 'text', label: 'Source of these', path: ['straightness', 'source'], lines: 2 },
        ],
      },
    ],
  },
  bars: {
    title: 'Bars on offer',
    one: 'bar',
    about: 'What can be bought. Prices that come with the program are invented: put in your supplier’s.',
    prefix: 'bar',
    getName: (entry) => entry.name,
    getFacts: (entry, shop, units) =>
      `${entry.lengths.map((each) => say(each.length, units)).join(', ')} long, ${shop.materials.find(({ id }) => id === entry.materialId)?.name ?? 'material missing'}`,
    first: null,
    getGroups: () => [
      {
        title: 'Section',
        fields: [
          text('Name', 'name'),
          { kind: 'entry', label: 'Material', path: ['materialId'], list: 'materials' },
          { kind: 'entry', label: 'Size class', path: ['sizeClassId'], list: 'sizeClasses' },
          size('Width, larger side', 'width'),
          size('Thickness', 'thickness'),
          {
            kind: 'optional',
            label: 'Bar in hand has been measured',
            path: ['measured'],
            first: { width: 25.4, thickness: 12.7 },
            fields: [size('Measured width', 'width'), size('Measured thickness', 'thickness')],
          },
          source,
        ],
      },
      {
        title: 'Lengths and prices',
        fields: [
          choice('Priced by', { piece: 'the bar', length: 'the metre', weight: 'the kilogram' }, 'priceBasis'),
          {
            kind: 'rows',
            label: 'Lengths',
            path: ['lengths'],
            first: { id: 'length', length: 3657.6, price: null, stocked: true, quantity: null },
            columns: [
              size('Length', 'length'),
              maybeQuantity('Price', 'money', 'price'),
              check('Stocked', 'stocked'),
              maybeQuantity('To be had', 'count', 'quantity'),
            ],
          },
        ],
      },
    ],
  },
  rack: {
    title: 'Rack',
    one: 'piece on the rack',
    about: 'Pieces of bar you have. The order uses them first where that is cheaper.',
    prefix: 'remnant',
    getName: (entry, _shop, units) =>
      `${say(entry.thickness, units)} × ${say(entry.width, units)}, ${say(entry.length, units)} long`,
    getFacts: (entry, shop) =>
      `${entry.quantity} of ${shop.materials.find(({ id }) => id === entry.materialId)?.name ?? 'material missing'}${entry.heatMark === '' ? ', no heat mark' : `, heat ${entry.heatMark}`}`,
    first: {
      materialId: '',
      sizeClassId: '',
      width: 38.1,
      thickness: 12.7,
      length: 600,
      quantity: 1,
      worth: 0,
      heatMark: '',
      note: '',
    },
    getGroups: () => [
      {
        title: 'Piece',
        fields: [
          { kind: 'entry', label: 'Material', path: ['materialId'], list: 'materials' },
          { kind: 'entry', label: 'Size class', path: ['sizeClassId'], list: 'sizeClasses' },
          size('Width, larger side', 'width'),
          size('Thickness', 'thickness'),
          size('Length', 'length'),
          quantity('How many', 'count', 'quantity'),
          quantity('Worth of one', 'money', 'worth'),
          text('Heat mark', 'heatMark'),
          { kind: 'text', label: 'Note', path: ['note'], lines: 2 },
        ],
      },
    ],
  },
  vises: {
    title: 'Vises',
    one: 'vise',
    about: 'Measure yours: bed height and jaw height decide which parallels serve.',
    prefix: 'vise',
    getName: (entry) => entry.name,
    getFacts: (entry, _shop, units) =>
      `jaws ${say(entry.jawWidth, units)} wide, ${say(entry.jawHeight, units)} high, opens ${say(entry.maxOpening, units)}`,
    first: null,
    getGroups: () => [
      {
        title: 'Size',
        fields: [
          text('Name', 'name'),
          size('Jaw width', 'jawWidth'),
          size('Jaw height above bed', 'jawHeight'),
          size('Bed above table', 'bedHeight'),
          size('Opens to', 'maxOpening'),
          size('Body along X', 'bodyLength'),
          size('Body along Y', 'bodyWidth'),
          length('Fixed jaw face from body', 'fixedJawSetback'),
          check('Moving jaw cannot cock', 'movingJawCannotCock'),
          source,
        ],
      },
      {
        title: 'Clamp',
        fields: [
          quantity('Largest clamp force', 'force', 'maxClampForceN'),
          size('Screw diameter', 'screw', 'nominalDiameter'),
          size('Mean thread diameter', 'screw', 'meanDiameter'),
          size('Lead', 'screw', 'lead'),
          quantity('Half thread angle, °', 'ratio', 'screw', 'threadHalfAngleDeg'),
          quantity('Thread friction', 'ratio', 'screw', 'threadFriction'),
          quantity('Collar friction', 'ratio', 'screw', 'collarFriction'),
          size('Mean collar diameter', 'screw', 'collarMeanDiameter'),
          { kind: 'text', label: 'Source of these', path: ['screw', 'source'], lines: 2 },
        ],
      },
    ],
  },
  jawSets: {
    title: 'Jaws',
    one: 'pair of jaws',
    about: 'Grip limits belong to the jaw face: what is too little for smooth jaws is plenty for toothed ones.',
    prefix: 'jaws',
    getName: (entry) => entry.name,
    getFacts: (entry, _shop, units) =>
      `${entry.face}, at least ${say(entry.leastFlatGrip, units)} of grip, comfortable from ${say(entry.comfortableGrip, units)}`,
    first: null,
    getGroups: () => [
      {
        title: 'Jaws',
        fields: [
          text('Name', 'name'),
          choice('Face', { smooth: 'smooth', serrated: 'serrated', toothed: 'toothed', soft: 'soft' }, 'face'),
          size('Plate thickness', 'thickness'),
          {
            kind: 'length',
            label: 'Height above bed',
            path: ['height'],
            options: { mayBeEmpty: true, allowZero: false },
          },
          check('A shelf may be milled into them', 'millable'),
          quantity('Yield strength', 'stress', 'yieldStrengthMPa'),
          {
            kind: 'optional',
            label: 'Held by screws through the face',
            path: ['bolts'],
            first: { thread: 'M10', spacing: 60, centreHeight: 25, counterboreDiameter: 18, counterboreDepth: 11 },
            fields: [
              text('Screw thread', 'thread'),
              size('Spacing', 'spacing'),
              size('Centre above bed', 'centreHeight'),
              size('Counterbore diameter', 'counterboreDiameter'),
              size('Counterbore depth', 'counterboreDepth'),
            ],
          },
          source,
        ],
      },
      {
        title: 'Limits',
        fields: [
          length('Least flat grip', 'leastFlatGrip'),
          length('Comfortable grip', 'comfortableGrip'),
          quantity('Proud at most, times grip', 'ratio', 'maxProudToGrip'),
          quantity('Proud at most, times thickness', 'ratio', 'maxProudToThickness'),
          quantity('Friction, ground', 'ratio', 'friction', 'ground'),
          quantity('Friction, machined', 'ratio', 'friction', 'machined'),
          quantity('Friction, as supplied', 'ratio', 'friction', 'asSupplied'),
        ],
      },
    ],
  },
  parallels: {
    title: 'Parallels',
    one: 'set of parallels',
    about: 'Only what is in your drawer. The planner never asks for one you have not got.',
    prefix: 'parallel',
    getName: (entry, _shop, units) => `${say(entry.height, units)} × ${say(entry.thickness, units)}`,
    getFacts: (entry, _shop, units) => `${entry.count === 2 ? 'pair' : 'single'}, ${say(entry.length, units)} long`,
    first: { height: 25.4, thickness: 6.35, length: 152.4, count: 2 },
    getGroups: () => [
      {
        title: 'Size',
        fields: [
          size('Height', 'height'),
          size('Thickness', 'thickness'),
          size('Length', 'length'),
          quantity('Pieces', 'count', 'count'),
        ],
      },
    ],
  },
  tools: {
    title: 'Tools',
    one: 'tool',
    about: 'Measured sizes: a cutter is often over its nominal, and its slot eats allowance.',
    prefix: 'tool',
    getName: (entry) => (entry.number === '' ? entry.name : `${entry.number} ${entry.name}`),
    getFacts: (entry, _shop, units) =>
      `${TOOL_WORDS[entry.kind]}, ⌀ ${say(entry.diameter, units)}, ${entry.toolMaterial === 'hss' ? 'high-speed steel' : 'carbide'}`,
    first: null,
    getGroups: (entry: Tool) => getToolGroups(entry),
  },
  holders: {
    title: 'Holders',
    one: 'holder',
    about: 'Nose and body, for clashes beside the part.',
    prefix: 'holder',
    getName: (entry) => entry.name,
    getFacts: (entry, _shop, units) => `nose ⌀ ${say(entry.noseDiameter, units)}`,
    first: null,
    getGroups: () => [
      {
        title: 'Size',
        fields: [
          text('Name', 'name'),
          size('Nose diameter', 'noseDiameter'),
          size('Nose length', 'noseLength'),
          size('Body diameter', 'bodyDiameter'),
          source,
        ],
      },
    ],
  },
  saws: {
    title: 'Saws',
    one: 'saw',
    about: 'What a cut takes, what a blank may be off, and what the saw cannot hold.',
    prefix: 'saw',
    getName: (entry) => entry.name,
    getFacts: (entry, _shop, units) => `kerf ${say(entry.kerf, units)}`,
    first: null,
    getGroups: () => [
      {
        title: 'Saw',
        fields: [
          text('Name', 'name'),
          size('Kerf, measured', 'kerf'),
          length('Blank over', 'lengthPlus'),
          length('Blank under', 'lengthMinus'),
          length('Stub it cannot hold', 'stub'),
          length('Squaring trim', 'squaringTrim'),
          length('Bad mill end', 'badEnd'),
          quantity('Sawn in a minute', 'area', 'areaRateMm2PerMin'),
          source,
        ],
      },
    ],
  },
  bowMeasurements: {
    title: 'Bow measured',
    one: 'bow measured',
    about: 'What your parts did when they were released. Until there is one, the planner assumes and says so.',
    prefix: 'bow',
    getName: (entry, _shop, units) => `${say(entry.bow, units)} over ${say(entry.length, units)}`,
    getFacts: (entry, shop) => `${entry.date} ${shop.materials.find(({ id }) => id === entry.materialId)?.name ?? ''}`,
    first: {
      date: '',
      materialId: '',
      sizeClassId: '',
      length: 152.4,
      height: 25.4,
      bow: 0.2,
      sidesCut: 'both',
      note: '',
    },
    getGroups: () => [
      {
        title: 'Measurement',
        fields: [
          text('Date', 'date'),
          { kind: 'entry', label: 'Material', path: ['materialId'], list: 'materials' },
          { kind: 'entry', label: 'Size class', path: ['sizeClassId'], list: 'sizeClasses' },
          size('Part length', 'length'),
          size('Part height', 'height'),
          length('Bow', 'bow'),
          choice('Metal taken off', { both: 'both sides', one: 'one side' }, 'sidesCut'),
          { kind: 'text', label: 'Note', path: ['note'], lines: 2 },
        ],
      },
    ],
  },
};

const TOOL_WORDS: Readonly<Record<Tool['kind'], string>> = {
  endMill: 'end mill',
  keySeat: 'key-seat cutter',
  slittingSaw: 'slitting saw',
  drill: 'drill',
};

export const LIST_KEYS = Object.keys(ENTRY_KINDS) as readonly ListKey[];
