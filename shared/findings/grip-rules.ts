import type { Hole, Part } from '../model/plan';
import type { JawSet, Vise } from '../model/shop';
import type { Draft, Judge } from './judge';
import { buildBarFix, buildFix, findBar, getPartName, lengthInput } from './judge';

/** Grip and seat. The limits belong to the jaw face. */
export function judgeGrip(judge: Judge): Draft[] {
  const jawSet = [...judge.plan.library.jawSets, ...judge.shop.jawSets].find(
    (entry) => entry.id === judge.plan.holding.jawSetId,
  );
  const vise = [...judge.plan.library.vises, ...judge.shop.vises].find(
    (entry) => entry.id === judge.plan.holding.viseId,
  );
  if (judge.judged.section === null || judge.judged.seat === null || jawSet === undefined || vise === undefined)
    return [];
  return [
    ...judgeDepth(judge, jawSet),
    ...judgeRatios(judge, jawSet),
    ...judgeCorner(judge),
    ...judgeShelf(judge),
    ...judgeParallels(judge),
    ...judgeSurface(judge, jawSet),
    ...judgeBreakThrough(judge),
    ...judgeEndLoad(judge, vise),
  ];
}

function judgeDepth(judge: Judge, jawSet: JawSet): Draft[] {
  const { seat, section } = judge.judged;
  if (seat === null || section === null) return [];
  const wanted =
    judge.plan.holding.targetGrip === 'auto' ? jawSet.comfortableGrip : judge.plan.holding.targetGrip.pinned;
  const numbers = [
    lengthInput('grip', seat.grip),
    lengthInput('flat grip', seat.flatGrip),
    lengthInput('least for these jaws', jawSet.leastFlatGrip),
    lengthInput('wanted', wanted),
  ];
  const bar = findBar(judge, (row) => row.gripLeast >= wanted) ?? findBar(judge, (row) => row.grip > seat.grip);
  const fixes = bar === null ? [] : [buildBarFix(bar, judge, `grip ${judge.say(bar.grip)}`)];
  if (seat.flatGrip < jawSet.leastFlatGrip - 1e-6) {
    return [
      {
        code: 'grip-too-thin',
        severity: 'stop',
        sentence: `Grip is ${judge.sayUnit(seat.flatGrip)} of flat jaw; ${jawSet.name} need at least ${judge.say(jawSet.leastFlatGrip)}.`,
        numbers,
        features: [
          { kind: 'stack', id: 'grip' },
          { kind: 'bar', id: section.barId.value },
        ],
        fixes,
      },
    ];
  }
  if (seat.grip >= wanted - 1e-6) return [];
  return [
    {
      code: 'grip-close',
      severity: 'check',
      sentence: `Grip is ${judge.sayUnit(seat.grip)}; ${judge.say(wanted)} is wanted for ${jawSet.name}.`,
      detail: 'It can be held with light cuts; the next bar up puts what it adds into the grip.',
      numbers,
      features: [
        { kind: 'stack', id: 'grip' },
        { kind: 'bar', id: section.barId.value },
      ],
      fixes,
    },
  ];
}

function judgeRatios(judge: Judge, jawSet: JawSet): Draft[] {
  const { section, blanks, governingBlank } = judge.judged;
  const blank = blanks[governingBlank];
  if (section === null || blank === undefined || !(blank.stack.grip.nominal > 0)) return [];
  const proud = blank.stack.proudHeight.nominal;
  const toGrip = proud / blank.stack.grip.nominal;
  const toThickness = proud / section.thickness.nominal;
  const over: string[] = [];
  if (toGrip > jawSet.maxProudToGrip) over.push(`${toGrip.toFixed(1)} × the grip (limit ${jawSet.maxProudToGrip})`);
  if (toThickness > jawSet.maxProudToThickness)
    over.push(`${toThickness.toFixed(1)} × the bar's thickness (limit ${jawSet.maxProudToThickness})`);
  if (over.length === 0) return [];
  return [
    {
      code: 'stands-tall',
      severity: 'check',
      sentence: `The bar stands ${judge.sayUnit(proud)} above the jaws: ${over.join(' and ')}. Take light cuts.`,
      numbers: [
        lengthInput('proud height', proud),
        { name: 'proud / grip', value: toGrip, kind: 'ratio' },
        { name: 'proud / thickness', value: toThickness, kind: 'ratio' },
      ],
      features: [{ kind: 'blank', id: blank.templateId }],
    },
  ];
}

function judgeCorner(judge: Judge): Draft[] {
  const { section, seat } = judge.judged;
  if (section === null || seat === null || section.cornerRadius <= 0 || seat.flatGrip >= seat.grip) return [];
  return [
    {
      code: 'corner-eats-grip',
      severity: 'note',
      sentence: `The bar's corners may be round to ${judge.sayUnit(section.cornerRadius)}: of ${judge.say(seat.grip)} grip only ${judge.say(seat.flatGrip)} bears.`,
      numbers: [lengthInput('corner radius', section.cornerRadius), lengthInput('flat grip', seat.flatGrip)],
      features: [{ kind: 'seat', id: 'seat' }],
    },
  ];
}

function judgeShelf(judge: Judge): Draft[] {
  const { seat } = judge.judged;
  if (seat === null || seat.choice.value.kind !== 'shelf') return [];
  const drafts: Draft[] = [];
  const deepest = seat.deepestLegalShelf.value;
  if (seat.shelfDepth.value > deepest + 1e-6) {
    drafts.push({
      code: 'shelf-too-deep',
      severity: 'stop',
      sentence: `A shelf ${judge.sayUnit(seat.shelfDepth.value)} deep is deeper than these jaws allow: ${judge.say(deepest)}, limited by ${seat.deepestLimitedBy}.`,
      detail: `On the vise bed the grip would be the jaw height, ${judge.say(seat.jawHeight)}.`,
      numbers: [lengthInput('shelf', seat.shelfDepth.value), lengthInput('deepest', deepest)],
      features: [{ kind: 'seat', id: 'shelf' }],
      fixes:
        deepest > 0
          ? [buildFix(`Shelf ${judge.say(deepest)} deep`, ['holding', 'shelfDepth'], { pinned: deepest })]
          : [],
    });
  }
  const available = Math.min(...judge.judged.blanks.map((blank) => blank.stack.availableGrip.nominal));
  if (
    Number.isFinite(available) &&
    seat.shelfDepth.pinned &&
    seat.shelfDepth.value > available + 1e-6 &&
    seat.shelfDepth.auto > 0
  ) {
    drafts.push({
      code: 'cut-off-below-jaws',
      severity: 'stop',
      sentence: `A shelf ${judge.sayUnit(seat.shelfDepth.value)} deep brings the cut-off into the clearance above the jaws; the stack leaves ${judge.say(available)} for grip.`,
      features: [
        { kind: 'seat', id: 'shelf' },
        { kind: 'cutter', id: 'cutOff' },
      ],
      fixes: [buildFix(`Shelf ${judge.say(seat.shelfDepth.auto)} deep`, ['holding', 'shelfDepth'], 'auto')],
    });
  }
  const rules = judge.shop.rules;
  if (seat.ledge.value < rules.leastLedge - 1e-6) {
    drafts.push({
      code: 'ledge-narrow',
      severity: seat.ledge.value <= 0 ? 'stop' : 'check',
      sentence: `The ledge under the bar is ${judge.sayUnit(seat.ledge.value)} wide; at least ${judge.say(rules.leastLedge)} carries a bar.`,
      numbers: [lengthInput('ledge', seat.ledge.value), lengthInput('spacer', seat.spacer.value)],
      features: [{ kind: 'seat', id: 'shelf' }],
      fixes: seat.spacer.pinned
        ? [buildFix(`Spacer ${judge.say(seat.spacer.auto)}`, ['holding', 'spacer'], 'auto')]
        : [],
    });
  }
  const spacerLimit = seat.jawHeight - seat.shelfDepth.value - rules.spacerBelowFloor;
  if (seat.spacerHeight.value > spacerLimit + 1e-6) {
    drafts.push({
      code: 'spacer-too-tall',
      severity: 'stop',
      sentence: `The spacer stands ${judge.sayUnit(seat.spacerHeight.value)} high and the shelf's floor is at ${judge.say(seat.jawHeight - seat.shelfDepth.value)}: the cutter would hit it.`,
      features: [{ kind: 'seat', id: 'spacer' }],
      fixes: [buildFix(`Spacer ${judge.say(seat.spacerHeight.auto)} high`, ['holding', 'spacerHeight'], 'auto')],
    });
  }
  if (seat.wallBehind < rules.wallBehindLedge - 1e-6) {
    drafts.push({
      code: 'jaw-wall-thin',
      severity: 'check',
      sentence: `Behind the shelf ${judge.sayUnit(seat.wallBehind)} of jaw is left; the shop keeps ${judge.say(rules.wallBehindLedge)}.`,
      features: [{ kind: 'jaw', id: 'fixed' }],
    });
  }
  return drafts;
}

function judgeParallels(judge: Judge): Draft[] {
  const { seat } = judge.judged;
  if (seat === null || seat.choice.value.kind !== 'parallels') return [];
  const { parallelId } = seat.choice.value;
  const row = seat.parallels.find((candidate) => candidate.parallelId === parallelId);
  if (row?.fits) return [];
  const say = judge.sayUnit;
  const options = [
    seat.nextLower === null
      ? ''
      : `the next lower pair, ${say(seat.nextLower.height)}, grips ${judge.say(seat.nextLower.grip)}`,
    seat.nextHigher === null
      ? ''
      : `the next higher, ${say(seat.nextHigher.height)}, grips ${judge.say(seat.nextHigher.grip)}`,
    seat.shim === null ? '' : `a shim of ${judge.say(seat.shim.least)} to ${say(seat.shim.most)} would do`,
  ].filter((text) => text !== '');
  return [
    {
      code: 'no-parallel-fits',
      severity: 'check',
      sentence: `These parallels do not serve${row === undefined || row.reason === '' ? '' : `: ${row.reason}`}.`,
      detail: options.join('; '),
      features: [{ kind: 'seat', id: 'parallels' }],
      fixes: [
        ...seat.parallels
          .filter((candidate) => candidate.fits)
          .slice(0, 1)
          .map((candidate) =>
            buildFix(`Parallels ${judge.say(candidate.height)} high`, ['holding', 'seat'], {
              pinned: { kind: 'parallels', parallelId: candidate.parallelId, count: 2 },
            }),
          ),
        ...(seat.deepestLegalShelf.value > 0
          ? [buildFix('Mill a shelf instead', ['holding', 'seat'], { pinned: { kind: 'shelf' } })]
          : []),
      ],
    },
  ];
}

function judgeSurface(judge: Judge, jawSet: JawSet): Draft[] {
  const { section } = judge.judged;
  const bar = [...judge.plan.library.bars, ...judge.shop.bars].find((entry) => entry.id === section?.barId.value);
  const sizeClass = [...judge.plan.library.sizeClasses, ...judge.shop.sizeClasses].find(
    (entry) => entry.id === bar?.sizeClassId,
  );
  const rough = sizeClass?.surface === 'sawn' || sizeClass?.surface === 'rolled';
  if (!rough || jawSet.face === 'toothed' || jawSet.face === 'serrated' || judge.plan.holding.grippedSurface !== 'auto')
    return [];
  return [
    {
      code: 'rough-in-smooth-jaws',
      severity: 'check',
      sentence: `The gripped faces are ${sizeClass.surface}; ${jawSet.name} want drawn, ground or machined faces.`,
      detail: 'Break the scale, or use serrated jaws.',
      features: [{ kind: 'jaw', id: 'fixed' }],
    },
  ];
}

/** Depth of a drill's point over its diameter, 118 degrees, and what it is fed past the part, mm. Common practice, no source. */
const POINT_DEPTH = 0.3;
const FEED_PAST = 1;

/** A drilled bore runs past the part by its point; it must not reach what carries the bar, where that lies under it. */
function judgeBreakThrough(judge: Judge): Draft[] {
  const { seat } = judge.judged;
  if (seat === null) return [];
  const drafts = new Map<string, Draft>();
  for (const { partId, holeId } of seat.holesOverSupport) {
    const part = judge.plan.parts.find(({ id }) => id === partId);
    const hole = part?.holes.find(({ id }) => id === holeId);
    if (part === undefined || hole === undefined) continue;
    const below = getMetalBelow(judge, part, hole);
    const point = POINT_DEPTH * hole.diameter + FEED_PAST;
    if (below === null || point <= below || drafts.has(partId)) continue;
    drafts.set(partId, {
      code: 'bore-reaches-seat',
      about: part.id,
      severity: 'check',
      sentence: `${getPartName(judge.plan, part.id)}: the point of a ${judge.sayUnit(hole.diameter)} drill breaks through ${judge.say(point)} below the part, and ${SUPPORT_NAMES[seat.choice.value.kind]} ${judge.say(below)} below it.`,
      numbers: [lengthInput('break-through', point), lengthInput('to the seat', below)],
      features: [
        { kind: 'part', id: part.id },
        { kind: 'seat', id: 'seat' },
      ],
    });
  }
  return [...drafts.values()];
}

const SUPPORT_NAMES = { shelf: 'the shelf is', parallels: 'the parallels are', bed: 'the vise bed is' } as const;

/** Metal between the part's bottom and what carries the bar, where a vise stands under the hole; null where none does. */
function getMetalBelow(judge: Judge, part: Part, hole: Hole): number | null {
  const { seat, blanks } = judge.judged;
  const half = (hole.diameter + Math.max(0, hole.slotLength)) / 2;
  const depths = blanks.flatMap((blank) =>
    blank.parts
      .filter((placed) => placed.partId === part.id)
      .filter((placed) => {
        const along = placed.mirrored ? placed.xEnd - hole.x : placed.x + hole.x;
        const x = blank.x + along;
        return blank.contacts.some((contact) => x + half > contact.from && x - half < contact.to);
      })
      .map(() => blank.stack.partBottomZ + (seat?.grip ?? 0)),
  );
  return depths.length > 0 ? Math.min(...depths) : null;
}

/** Work at one end of a jaw cocks it. */
function judgeEndLoad(judge: Judge, vise: Vise): Draft[] {
  const { blanks, vises } = judge.judged;
  if (vises === null) return [];
  return blanks.flatMap((blank) =>
    blank.contacts.flatMap((contact): Draft[] => {
      const centre = vises.centres.value[contact.viseIndex];
      if (centre === undefined) return [];
      const offCentre = Math.abs((contact.from + contact.to) / 2 - centre);
      if (offCentre <= vise.jawWidth / 6) return [];
      return [
        {
          code: 'held-at-jaw-end',
          about: `${blank.templateId}.${contact.viseIndex}`,
          severity: 'check',
          sentence: `${blank.label} is held at one end of vise ${contact.viseIndex + 1}: put a spacer of the bar's thickness in the other end, or move the vise.`,
          numbers: [lengthInput('off centre', offCentre), lengthInput('contact', contact.to - contact.from)],
          features: [{ kind: 'vise', id: String(contact.viseIndex) }],
        },
      ];
    }),
  );
}
