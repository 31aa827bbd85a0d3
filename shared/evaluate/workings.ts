import type { EngineResults } from '../engine/engine-results';
import type { Decided, Figure, Why, WhyInput } from '../engine/figure';
import type { BlankResult, CutForceResult, RibResult } from '../engine/results';
import { COMMON_PRACTICE, GEOMETRY, getInput, getTextInput } from '../engine/workings';
import type { Plan } from '../model/plan';
import type { QuantityKind } from '../units/quantity';
import { formatWorkingValue, type TextLook } from './workings-text';

/** One number or decision of an evaluation with where it comes from. */
export interface Working {
  /** Unique in the list. */
  readonly id: string;
  readonly title: string;
  /** The number with its unit, or the decision in words. */
  readonly value: string;
  readonly why: Why;
}

export interface WorkingTopic {
  readonly id: string;
  readonly title: string;
  readonly workings: readonly Working[];
}

/** What each topic lists itself with. */
interface Listing {
  readonly plan: Plan;
  readonly results: EngineResults;
  readonly look: TextLook;
}

type List = (listing: Listing) => Working[];

const TOPICS: readonly { id: string; title: string; list: List }[] = [
  { id: 'bar', title: 'Bar', list: listBar },
  { id: 'stack', title: 'Stack and grip', list: listStack },
  { id: 'seat', title: 'Seat', list: listSeat },
  { id: 'vises', title: 'Vises and clamp force', list: listVises },
  { id: 'forces', title: 'Cutting forces', list: listForces },
  { id: 'hold', title: 'Hold', list: listHold },
  { id: 'bending', title: 'Bending of the work', list: listBending },
  { id: 'release', title: 'Cut-off, rib and tabs', list: listRelease },
  { id: 'reach', title: 'Reach', list: listReach },
  { id: 'bow', title: 'Bow and straightness', list: listBow },
  { id: 'allowance', title: 'Allowance', list: listAllowance },
  { id: 'chance', title: 'Chance', list: listChance },
  { id: 'spares', title: 'Spares', list: listSpares },
  { id: 'order', title: 'Order', list: listOrder },
];

/**
 * Every number and decision of an evaluation with its workings, by topic, in the order of the work. Topics without
 * any are left out.
 */
export function getWorkings(plan: Plan, results: EngineResults, look: TextLook): WorkingTopic[] {
  const listing: Listing = { plan, results, look };
  return TOPICS.map(({ id, title, list }) => ({ id, title, workings: list(listing) })).filter(
    ({ workings }) => workings.length > 0,
  );
}

/** The topics with only the workings in which every word of `search` stands; topics left empty are left out. */
export function findWorkings(topics: readonly WorkingTopic[], search: string): WorkingTopic[] {
  const words = search.toLowerCase().split(/\s+/u).filter(Boolean);
  if (words.length === 0) return [...topics];
  return topics
    .map((topic) => ({
      ...topic,
      workings: topic.workings.filter(({ title, value, why }) => {
        const text = [topic.title, title, value, why.rule, why.formula, why.source, ...why.inputs.map(getName)]
          .join(' ')
          .toLowerCase();
        return words.every((word) => text.includes(word));
      }),
    }))
    .filter(({ workings }) => workings.length > 0);
}

function getName({ name }: WhyInput): string {
  return name;
}

function work(listing: Listing, id: string, title: string, figure: Figure): Working {
  return { id, title, value: formatWorkingValue(figure.value, figure.kind, listing.look), why: figure.why };
}

function workDecision<T>(id: string, title: string, decided: Decided<T>, say: (value: T) => string): Working {
  if (!decided.pinned) return { id, title, value: say(decided.value), why: decided.why };
  const inputs = [getTextInput('pinned by you', say(decided.value)), getTextInput('auto would be', say(decided.auto))];
  return {
    id,
    title,
    value: `${say(decided.value)}, pinned`,
    why: { ...decided.why, inputs: [...inputs, ...decided.why.inputs] },
  };
}

function getSayer({ look }: Listing, kind: QuantityKind): (value: number) => string {
  return (value) => formatWorkingValue(value, kind, look);
}

function getPartName({ plan }: Listing, partId: string): string {
  const index = plan.parts.findIndex(({ id }) => id === partId);
  const name = plan.parts[index]?.name.trim() ?? '';
  return name === '' ? `part ${index + 1}` : name;
}

function getCutName({ plan }: Listing, cutId: string): string {
  return plan.cuts.find(({ id }) => id === cutId)?.name ?? cutId;
}

function listBar(listing: Listing): Working[] {
  const { section, across } = listing.results;
  if (section === null) return [];
  const length = getSayer(listing, 'length');
  return [
    workDecision('bar', 'Bar taken', section.barId, (id) => (id === section.barId.value ? section.name : id)),
    workDecision('way-up', 'Way up', section.wayUp, (way) => (way === 'onEdge' ? 'on edge' : 'flat')),
    workDecision('skin', 'Skin off each side', section.skinPerSide, length),
    ...across.map((row) =>
      work(listing, `across:${row.partId}`, `Thickness of bar for ${getPartName(listing, row.partId)}`, row.why),
    ),
  ];
}

/** One list for each blank, its label before each title where there are several. */
function listBlanks(listing: Listing, list: (blank: BlankResult, before: string) => Working[]): Working[] {
  const { blanks } = listing.results;
  return blanks.flatMap((blank) => list(blank, blanks.length > 1 ? `${blank.label}: ` : ''));
}

function listStack(listing: Listing): Working[] {
  return listBlanks(listing, ({ templateId, stack }, before) => [
    work(listing, `grip:${templateId}`, `${before}Grip`, stack.gripFigure),
    work(listing, `proud:${templateId}`, `${before}Proud height`, stack.proudFigure),
  ]);
}

const SEAT_NAMES = { shelf: 'jaw shelf', parallels: 'parallels', bed: 'vise bed' } as const;

function listSeat(listing: Listing): Working[] {
  const { seat } = listing.results;
  if (seat === null) return [];
  const length = getSayer(listing, 'length');
  return [
    workDecision('seat', 'Seat', seat.choice, ({ kind }) => SEAT_NAMES[kind]),
    workDecision('target-grip', 'Grip aimed at', seat.targetGrip, length),
    workDecision('shelf-depth', 'Shelf depth', seat.shelfDepth, length),
    work(listing, 'deepest-shelf', 'Deepest legal shelf', seat.deepestLegalShelf),
    workDecision('spacer', 'Spacer', seat.spacer, length),
    workDecision('spacer-height', 'Spacer height', seat.spacerHeight, length),
    work(listing, 'ledge', 'Ledge', seat.ledge),
  ];
}

function listVises(listing: Listing): Working[] {
  const { vises } = listing.results;
  if (vises === null) return [];
  const length = getSayer(listing, 'length');
  return [
    workDecision('vise-count', 'Vises', vises.count, String),
    workDecision('vise-centres', 'Vise centres', vises.centres, (centres) => centres.map(length).join(', ')),
    work(listing, 'clamp-force', 'Clamp force of one vise', vises.clampForceN),
  ];
}

function listForces(listing: Listing): Working[] {
  return listing.results.cuts.flatMap((cut: CutForceResult) => [
    work(listing, `side-force:${cut.cutId}`, `${cut.name}: side force`, cut.sideForceN),
    work(listing, `power:${cut.cutId}`, `${cut.name}: power`, cut.powerKw),
  ]);
}

function listHold(listing: Listing): Working[] {
  return listBlanks(listing, ({ templateId, hold }, before) => [
    ...hold.rows.flatMap((row) => {
      const title = `${before}${getCutName(listing, row.cutId)}`;
      const id = `${templateId}:${row.cutId}`;
      return [
        work(listing, `slip:${id}`, `${title}: factor against slipping`, row.slipFactor),
        work(listing, `tip:${id}`, `${title}: factor against tipping`, row.tipFactor),
        work(listing, `lift:${id}`, `${title}: factor against lifting`, row.liftFactor),
      ];
    }),
    work(listing, `pressure:${templateId}`, `${before}Jaw pressure`, hold.jawPressureMPa),
  ]);
}

function listBending(listing: Listing): Working[] {
  return listBlanks(listing, ({ templateId, deflection, longestLegalOverhang }, before) => [
    work(listing, `wall:${templateId}`, `${before}Standing wall bends`, deflection.proudWall),
    work(listing, `overhang:${templateId}`, `${before}Overhang bends`, deflection.overhang),
    work(listing, `between:${templateId}`, `${before}Bar between vises bends`, deflection.betweenVises),
    work(listing, `longest:${templateId}`, `${before}Longest legal overhang`, longestLegalOverhang),
  ]);
}

function listRelease(listing: Listing): Working[] {
  const { release } = listing.results;
  if (release === null) return [];
  const length = getSayer(listing, 'length');
  const { library } = listing.plan;
  const getTool = (id: string) => library.tools.find((tool) => tool.id === id)?.name ?? id;
  return [
    workDecision('cutter', 'Cut-off cutter', release.cutterId, getTool),
    workDecision('clearance', 'Clearance above the jaws', release.clearance, length),
    workDecision('rib-target', 'Rib aimed at', release.ribTarget, length),
    workDecision('keep', 'What is left', release.keep, (keep) => (keep === 'rib' ? 'a rib' : 'tabs')),
    work(listing, 'cutter-reach', 'Reach of the cutter', release.reach),
    work(listing, 'depth-per-side', 'Depth from each side', release.depthPerSide),
    ...release.parts.flatMap((rib) => listRib(listing, rib)),
    work(listing, 'cut-off-time', 'Milling the pieces off', release.cutOffMinutes),
    work(listing, 'saw-time', 'Sawing them off instead', release.sawMinutes),
  ];
}

function listRib(listing: Listing, rib: RibResult): Working[] {
  const name = getPartName(listing, rib.partId);
  const allowed = getInput('allowed', rib.allowedStressMPa, 'stress');
  return [
    work(listing, `rib:${rib.partId}`, `${name}: thickest rib`, rib.widestFigure),
    work(listing, `rib-now:${rib.partId}`, `${name}: rib bent by the cut-off`, {
      ...rib.bendingStressNowMPa,
      why: { ...rib.bendingStressNowMPa.why, inputs: [...rib.bendingStressNowMPa.why.inputs, allowed] },
    }),
    ...rib.later.map((later) =>
      work(
        listing,
        `rib-later:${rib.partId}:${later.cutId}`,
        `${name}: rib bent by ${getCutName(listing, later.cutId)}`,
        {
          ...later.stressMPa,
          why: {
            ...later.stressMPa.why,
            inputs: [...later.stressMPa.why.inputs, allowed, getInput('rib needed', later.ribNeeded, 'length')],
          },
        },
      ),
    ),
    work(listing, `snap:${rib.partId}`, `${name}: force that snaps it off`, rib.snapForceN),
  ];
}

function listReach(listing: Listing): Working[] {
  const length = getSayer(listing, 'length');
  return listing.results.reach.flatMap((row) => {
    const name = getCutName(listing, row.cutId);
    return [
      workDecision(`stick-out:${row.cutId}`, `${name}: stick-out`, row.stickOut, length),
      work(listing, `ratio:${row.cutId}`, `${name}: stick-out over diameter`, row.ratio),
      work(listing, `tool-bends:${row.cutId}`, `${name}: tool bends`, row.deflection),
    ];
  });
}

function listBow(listing: Listing): Working[] {
  return listing.results.bow.flatMap((row) => {
    const name = getPartName(listing, row.partId);
    const { spread } = row;
    const range: WhyInput[] =
      spread === null || row.measurements < 2
        ? []
        : [
            getInput('measurements', row.measurements, 'count'),
            getInput('least of them, scaled', spread.least, 'length'),
            getInput('most of them, scaled', spread.most, 'length'),
          ];
    return [
      work(listing, `bow:${row.partId}`, `${name}: bow on release`, {
        ...row.bow,
        why: { ...row.bow.why, inputs: [...row.bow.why.inputs, ...range] },
      }),
      work(listing, `straightness:${row.partId}`, `${name}: bow of the bar`, row.straightness),
      work(listing, `forced:${row.partId}`, `${name}: force that pulls the bar straight`, row.forcedStraightN),
    ];
  });
}

const FACE_NAMES = {
  top: 'top',
  bottom: 'bottom',
  fixedSide: 'fixed side',
  movingSide: 'moving side',
  leftEnd: 'left end',
  rightEnd: 'right end',
} as const;

function listAllowance(listing: Listing): Working[] {
  return listing.results.allowance
    .filter((row) => !row.finishedHere)
    .map((row) =>
      work(
        listing,
        `allowance:${row.partId}:${row.face}`,
        `${getPartName(listing, row.partId)}, ${FACE_NAMES[row.face]}: needed at worst`,
        {
          value: row.worstCase,
          kind: 'length',
          why: {
            rule: 'What may go wrong on this face before the last cut, all of it at once; an estimate',
            formula: row.terms.length > 0 ? `worst case = ${row.terms.map(({ name }) => name).join(' + ')}` : '',
            inputs: [
              ...row.terms.map(({ name, value }) => getInput(name, value, 'length')),
              getInput('root-sum-square of what varies, fixed terms on top', row.rootSumSquare, 'length'),
              getInput('left on the face', row.left, 'length'),
            ],
            source: `${GEOMETRY}; least cut and locating error ${COMMON_PRACTICE}`,
          },
        },
      ),
    );
}

function listChance(listing: Listing): Working[] {
  const { chance } = listing.results;
  if (chance === null) return [];
  return [
    work(listing, 'chance-all', 'Grip, allowance and hold are all met', chance.all),
    work(listing, 'chance-grip', 'Grip is met', chance.grip),
    work(listing, 'chance-allowance', 'Allowance is met', chance.allowance),
    work(listing, 'chance-hold', 'Hold is met', chance.hold),
    work(listing, 'chance-low', 'Hold factor in 19 jobs of 20', chance.holdFactorLow),
  ];
}

function listSpares(listing: Listing): Working[] {
  return listing.results.spares.flatMap((row) => {
    const name = getPartName(listing, row.partId);
    return [
      work(listing, `pieces:${row.partId}`, `${name}: pieces to make`, row.why),
      ...(row.chanceOfEnough === null
        ? []
        : [work(listing, `enough:${row.partId}`, `${name}: chance of enough`, row.chanceOfEnough)]),
    ];
  });
}

function listOrder(listing: Listing): Working[] {
  const { order, figures } = listing.results;
  if (order === null) return [];
  return [
    ...(figures.bars === null ? [] : [work(listing, 'bars', 'Bars', figures.bars)]),
    ...(order.cost === null ? [] : [work(listing, 'cost', 'Cost', order.cost)]),
    work(listing, 'yield-length', 'Yield by length', order.yieldByLength),
    work(listing, 'yield-blank', 'Yield to the blanks, by volume', order.yieldToBlank),
    work(listing, 'yield-part', 'Yield to the finished parts, by volume', order.yieldToPart),
    work(listing, 'mass', 'Mass of the bars', order.massKg),
  ];
}
