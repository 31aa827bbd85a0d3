import { isCutOffCutter } from '../engine/context';
import { getNeck } from '../engine/cutter-reach';
import type { RibResult } from '../engine/results';
import { getPinned } from '../model/choice';
import type { Draft, Judge } from './judge';
import { buildFix, getPart, getPartName, lengthInput } from './judge';

/** The cut-off: reach, rib, tabs, and what is planned after it. */
export function judgeRelease(judge: Judge): Draft[] {
  const { release } = judge.judged;
  if (release === null) return [];
  return [
    ...judgeClearance(judge),
    ...judgeRib(judge),
    ...judgeTabs(judge),
    ...judgeCorners(judge),
    ...judgeSnap(judge),
    ...judgeOrderOfWork(judge),
  ];
}

function judgeClearance(judge: Judge): Draft[] {
  const { blanks } = judge.judged;
  const least = Math.min(...blanks.map((blank) => blank.stack.clearance));
  if (!Number.isFinite(least) || least >= 0.5) return [];
  return [
    {
      code: least <= 0 ? 'cutter-in-jaws' : 'clearance-small',
      severity: least <= 0 ? 'stop' : 'check',
      sentence:
        least <= 0
          ? 'The cut-off cutter would run into the jaws: there is no clearance above their tops.'
          : `Between the cut-off cutter and the jaw tops only ${judge.sayUnit(least)} is left; 0.020 in / 0.5 mm is the least that is usual.`,
      numbers: [lengthInput('clearance', least)],
      features: [
        { kind: 'cutter', id: 'cutOff' },
        { kind: 'jaw', id: 'fixed' },
      ],
      fixes:
        judge.plan.release.clearance === 'auto'
          ? []
          : [buildFix('Clearance by the shop rule', ['release', 'clearance'], 'auto')],
    },
  ];
}

function judgeRib(judge: Judge): Draft[] {
  const { release } = judge.judged;
  const { rules } = judge.shop;
  if (release === null) return [];
  return release.parts.flatMap((rib): Draft[] => {
    const name = getPartName(judge.plan, rib.partId);
    const features = [
      { kind: 'rib', id: rib.partId },
      { kind: 'part', id: rib.partId },
    ] as const;
    const drafts: Draft[] = [];
    const cutter = judge.judged.release?.cutterId;
    if (rib.widest.rib > rules.mostRib + 1e-6) {
      const localWidth = rib.profile.reduce((widest, at) => Math.max(widest, at.width), 0);
      drafts.push({
        code: 'rib-too-thick',
        about: rib.partId,
        severity: 'stop',
        sentence: `${name}: the cutter reaches ${judge.sayUnit(release.reach.value)} and leaves a rib of ${judge.say(rib.widest.rib)} at ${judge.say(rib.widest.x)}; over ${judge.say(rules.mostRib)} it will not snap off cleanly.`,
        detail: `Take a larger cutter, bore the boss first, or saw it. The widest place is ${judge.say(localWidth)}.`,
        numbers: [
          lengthInput('reach', release.reach.value),
          lengthInput('rib', rib.widest.rib),
          lengthInput('at', rib.widest.x),
        ],
        features: [...features, { kind: 'cutter', id: 'cutOff' }],
        fixes:
          cutter?.pinned && cutter.auto !== '' && cutter.auto !== cutter.value
            ? [buildFix('Take the cutter the shop has for it', ['release', 'cutterId'], 'auto')]
            : [],
      });
    }
    if (rib.narrowest.rib <= 0 && rib.tabsFrom === 'none') {
      drafts.push({
        code: 'cut-through',
        about: rib.partId,
        severity: rib.widest.rib <= 0 ? 'stop' : 'check',
        sentence:
          rib.widest.rib <= 0
            ? `${name}: nothing is left to hold the part once it is cut; it would be thrown.`
            : `${name}: at ${judge.sayUnit(rib.narrowest.x)} the part is cut right through; the rib holds only elsewhere.`,
        features: [...features],
        fixes:
          judge.plan.release.ribTarget === 'auto'
            ? []
            : [buildFix('Rib by the shop rule', ['release', 'ribTarget'], 'auto')],
      });
    } else if (rib.narrowest.rib > 0 && rib.narrowest.rib < rules.leastRib - 1e-6) {
      drafts.push({
        code: 'rib-thin',
        about: rib.partId,
        severity: 'check',
        sentence: `${name}: the rib is ${judge.sayUnit(rib.narrowest.rib)} at ${judge.say(rib.narrowest.x)}; under ${judge.say(rules.leastRib)} it may let go during the cut.`,
        features: [...features],
      });
    }
    if (rib.bendingStressNowMPa.value > rib.allowedStressMPa && rib.widest.rib > 0) {
      drafts.push({
        code: 'rib-breaks-in-cut',
        about: rib.partId,
        severity: 'check',
        sentence: `${name}: the cut-off itself bends the rib to ${judge.sayKind(rib.bendingStressNowMPa.value, 'stress')}; ${judge.sayKind(rib.allowedStressMPa, 'stress')} is allowed. It may let go before the cut ends.`,
        numbers: rib.bendingStressNowMPa.why.inputs,
        features: [...features],
      });
    }
    return drafts;
  });
}

/** Corners of the profile that the neck of the cut-off cutter cannot go into; the rib stays thick there. */
function judgeCorners(judge: Judge): Draft[] {
  const cutter = judge.shop.tools.find(({ id }) => id === judge.judged.release?.cutterId.value);
  if (cutter === undefined || !isCutOffCutter(cutter)) return [];
  const neckRadius = getNeck(cutter).diameter / 2;
  return judge.plan.parts.flatMap(({ id, insideCorner }): Draft[] => {
    if (insideCorner === null || insideCorner >= neckRadius - 1e-6) return [];
    const name = getPartName(judge.plan, id);
    return [
      {
        code: 'inside-corner-tight',
        about: id,
        severity: 'check',
        sentence: `${name}: its tightest inside corner has a radius of ${judge.say(insideCorner)}; the cut-off cutter’s neck has ${judge.sayUnit(neckRadius)} and cannot follow the profile there.`,
        detail:
          'Take a cutter with a thinner neck, open the corner, or leave the corner to be finished after the cut-off.',
        numbers: [lengthInput('inside corner', insideCorner), lengthInput('neck radius', neckRadius)],
        features: [
          { kind: 'part', id },
          { kind: 'cutter', id: 'cutOff' },
        ],
      },
    ];
  });
}

/** Tabs that cannot keep their limits, whoever placed them. */
function judgeTabs(judge: Judge): Draft[] {
  return (judge.judged.release?.parts ?? []).flatMap((rib): Draft[] => {
    if (rib.tabsOk || rib.tabsFrom === 'none') return [];
    const name = getPartName(judge.plan, rib.partId);
    const features: Draft['features'] = [
      ...rib.tabs.map((_tab, index) => ({ kind: 'tab' as const, id: `${rib.partId}.${index}` })),
      { kind: 'part', id: rib.partId },
    ];
    const pinned = getPinned(judge.plan.release.tabs);
    const others = pinned?.filter((tab) => tab.partId !== rib.partId) ?? [];
    if (rib.tabs.length === 0) {
      return [
        {
          code: 'no-tab-fits',
          about: rib.partId,
          severity: 'stop',
          sentence: `${name}: keep-outs and holes leave no place for a tab; nothing would hold the part once it is cut.`,
          features: [{ kind: 'part', id: rib.partId }],
          fixes: [buildFix('Leave a rib instead', ['release', 'keep'], { pinned: 'rib' })],
        },
      ];
    }
    return [
      {
        code: 'tabs-out-of-limits',
        about: rib.partId,
        severity: 'check',
        sentence: `${name}: the ${rib.tabsFrom === 'pinned' ? 'tabs as placed' : 'best tabs there are'} ${getTabFaults(judge, rib)}.`,
        features,
        fixes: [
          ...(rib.tabsFrom === 'pinned'
            ? [buildFix('Place its tabs afresh', ['release', 'tabs'], others.length > 0 ? { pinned: others } : 'auto')]
            : []),
          buildFix('Leave a rib instead', ['release', 'keep'], { pinned: 'rib' }),
        ],
      },
    ];
  });
}

function getTabFaults(judge: Judge, rib: RibResult): string {
  const { rules } = judge.shop;
  const part = getPart(judge.plan, rib.partId);
  const tabs = rib.tabs.toSorted((a, b) => a.from - b.from);
  const end = Math.max(tabs[0]?.from ?? 0, (part?.length ?? 0) - (tabs.at(-1)?.to ?? 0));
  const span = Math.max(0, ...tabs.slice(1).map((tab, index) => tab.from - (tabs[index]?.to ?? tab.from)));
  const inKeepOut = tabs.filter((tab) =>
    (part?.keepOuts ?? []).some((keepOut) => tab.from < keepOut.to - 1e-6 && tab.to > keepOut.from + 1e-6),
  ).length;
  const faults = [
    span > rules.tabSpan + 1e-3 ? `span ${judge.sayUnit(span)}, over ${judge.say(rules.tabSpan)}` : '',
    end > rules.tabEndOverhang + 1e-3
      ? `leave an end of ${judge.sayUnit(end)}, over ${judge.say(rules.tabEndOverhang)}`
      : '',
    inKeepOut > 0 ? `stand in a keep-out (${inKeepOut} of ${tabs.length})` : '',
  ].filter((fault) => fault !== '');
  return faults.length > 0 ? faults.join(' and ') : 'overlap, stand over a hole, or are too few to carry the cut';
}

function judgeSnap(judge: Judge): Draft[] {
  return (judge.judged.release?.parts ?? []).flatMap((rib): Draft[] => {
    const name = getPartName(judge.plan, rib.partId);
    if (rib.snapBy === 'hand' || rib.widest.rib <= 0) return [];
    const force = judge.sayKind(rib.snapForceN.value, 'force');
    const sentences: Record<typeof rib.snapBy, [Draft['severity'], string]> = {
      'falls off': ['check', `${name}: the rib is so weak that the part may drop off by itself; catch it.`],
      mallet: ['note', `${name}: about ${force} at its top snaps it off, a soft mallet's work; support the part.`],
      pry: ['check', `${name}: about ${force} at its top snaps it off, a pry bar's work; the part may bend.`],
      'will not snap': [
        'check',
        `${name}: about ${force} at its top would be needed to snap it off; saw it, or leave less rib.`,
      ],
    };
    const [severity, sentence] = sentences[rib.snapBy];
    return [
      {
        code: 'snap-force',
        about: rib.partId,
        severity,
        sentence,
        numbers: rib.snapForceN.why.inputs,
        features: [{ kind: 'rib', id: rib.partId }],
      },
    ];
  });
}

/** Anything after the cut-off works on a part that only its rib holds. */
function judgeOrderOfWork(judge: Judge): Draft[] {
  const { plan } = judge;
  const cutOff = plan.cuts.findIndex((cut) => cut.kind === 'cutOff');
  if (cutOff < 0) {
    return plan.parts.length === 0
      ? []
      : [
          {
            code: 'no-cut-off',
            severity: 'check',
            sentence: 'The order of work has no cut-off: add one as the last cut.',
            features: [{ kind: 'field', id: 'cuts' }],
          },
        ];
  }
  const later = plan.cuts.slice(cutOff + 1).filter((cut) => cut.kind !== 'cutOff');
  if (later.length === 0) return [];
  const breaks = new Map<string, number>();
  for (const rib of judge.judged.release?.parts ?? []) {
    for (const row of rib.later) {
      if (!row.ok) breaks.set(row.cutId, Math.max(breaks.get(row.cutId) ?? 0, row.ribNeeded));
    }
  }
  const reordered = [
    ...plan.cuts.filter((cut) => cut.kind !== 'cutOff'),
    ...plan.cuts.filter((cut) => cut.kind === 'cutOff'),
  ];
  return later.map((cut): Draft => {
    const needed = breaks.get(cut.id);
    return {
      code: 'cut-after-cut-off',
      about: cut.id,
      severity: needed === undefined ? 'note' : 'check',
      sentence:
        needed === undefined
          ? `"${cut.name}" comes after the cut-off; by estimate the rib carries it.`
          : `"${cut.name}" comes after the cut-off and would break the rib; it would need ${judge.sayUnit(needed)} of rib.`,
      features: [{ kind: 'cut', id: cut.id }],
      fixes: [buildFix('Make the cut-off the last cut', ['cuts'], reordered)],
    };
  });
}
