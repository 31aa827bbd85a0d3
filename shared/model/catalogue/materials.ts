import type { Material } from '../shop';
import { FROM_MEMORY, TYPICAL } from './sources';

/** Steel of 20 × 5 mm then weighs 0.785 kg/m, the figure of the flat-bar standards. */
const STEEL_DENSITY_KG_M3 = 7850;

const FRICTION_FACTOR_SOURCE = 'jaw friction factor for the metal: typical, measure your own';

/**
 * Specific cutting force by material group. The guideline VDI 3323 gives the group numbers; the constants printed beside
 * them are typical values.
 */
function getVdiGroup(group: string, kc11MPa: number, mc: number): Material['kienzle'] {
  return { family: 'vdi3323', kc11MPa, mc, source: `constants by VDI 3323 group ${group}, ${TYPICAL}` };
}

const LOW_CARBON_STEEL: Material = {
  id: 'material-low-carbon-steel',
  name: 'Low-carbon steel',
  designation: 'AISI 1018 or near, cold drawn',
  metalGroup: 'lowCarbonSteel',
  densityKgM3: STEEL_DENSITY_KG_M3,
  youngsModulusMPa: 205_000,
  yieldStrengthMPa: 370,
  tensileStrengthMPa: 440,
  kienzle: getVdiGroup('1', 1350, 0.21),
  jawFrictionFactor: 1,
  source: `strengths of cold-drawn 1018, ${FROM_MEMORY}`,
};

const STEEL_4140_ANNEALED: Material = {
  id: 'material-4140-annealed',
  name: '4140',
  designation: 'AISI 4140 / 42CrMo4, annealed',
  metalGroup: 'alloySteel',
  densityKgM3: STEEL_DENSITY_KG_M3,
  youngsModulusMPa: 207_000,
  yieldStrengthMPa: 415,
  tensileStrengthMPa: 655,
  kienzle: getVdiGroup('6', 1775, 0.24),
  jawFrictionFactor: 1,
  source: `E: Callister, Materials Science and Engineering, Table B.2; strengths of annealed 4140, ${FROM_MEMORY}`,
};

const STEEL_42CRMO4_QT: Material = {
  id: 'material-42crmo4-qt',
  name: '42CrMo4 +QT',
  designation: '42CrMo4 / 4140, quenched and tempered',
  metalGroup: 'alloySteel',
  densityKgM3: STEEL_DENSITY_KG_M3,
  youngsModulusMPa: 207_000,
  yieldStrengthMPa: 750,
  tensileStrengthMPa: 1000,
  kienzle: getVdiGroup('8', 1725, 0.24),
  jawFrictionFactor: 1,
  source: 'least strengths, flats over 8 to 20 mm thick: EN 10083-3; E: Callister, Table B.2',
};

const STAINLESS_304: Material = {
  id: 'material-304',
  name: '304 stainless',
  designation: 'AISI 304 / 1.4301, annealed',
  metalGroup: 'stainless',
  densityKgM3: 7900,
  youngsModulusMPa: 193_000,
  yieldStrengthMPa: 205,
  tensileStrengthMPa: 515,
  kienzle: getVdiGroup('14', 2150, 0.2),
  jawFrictionFactor: 1,
  source: `least strengths, over 12.7 mm: ASTM A276; E: Callister, Table B.2; density ${FROM_MEMORY}`,
};

const STAINLESS_316: Material = {
  ...STAINLESS_304,
  id: 'material-316',
  name: '316 stainless',
  designation: 'AISI 316 / 1.4401, annealed',
  densityKgM3: 8000,
};

const ALUMINIUM_6061: Material = {
  id: 'material-6061-t6',
  name: '6061-T6',
  designation: 'EN AW-6061 T6, extruded',
  metalGroup: 'aluminium',
  densityKgM3: 2700,
  youngsModulusMPa: 68_900,
  yieldStrengthMPa: 241,
  tensileStrengthMPa: 262,
  kienzle: getVdiGroup('22', 800, 0.25),
  jawFrictionFactor: 0.95,
  source: `least strengths: ASTM B221; ${FRICTION_FACTOR_SOURCE}`,
};

const ALUMINIUM_6082: Material = {
  ...ALUMINIUM_6061,
  id: 'material-6082-t6',
  name: '6082-T6',
  designation: 'EN AW-6082 T6, extruded',
  youngsModulusMPa: 70_000,
  yieldStrengthMPa: 250,
  tensileStrengthMPa: 295,
  source: `least strengths, bar to 20 mm: EN 755-2; ${FRICTION_FACTOR_SOURCE}`,
};

const ALUMINIUM_BRONZE_C954: Material = {
  id: 'material-c954',
  name: 'C954 aluminium bronze',
  designation: 'UNS C95400, continuous cast',
  metalGroup: 'copperAlloy',
  densityKgM3: 7450,
  youngsModulusMPa: 107_000,
  yieldStrengthMPa: 221,
  tensileStrengthMPa: 586,
  kienzle: {
    family: 'vdi3323',
    kc11MPa: 1350,
    mc: 0.21,
    source: `no group of VDI 3323 covers aluminium bronze: group 1 steel is taken to stay on the safe side, ${TYPICAL}`,
  },
  jawFrictionFactor: 0.9,
  source: `strengths: ASTM B505; E ${FROM_MEMORY}; ${FRICTION_FACTOR_SOURCE}`,
};

const BRASS_C360: Material = {
  id: 'material-c360',
  name: 'C360 brass',
  designation: 'UNS C36000, half hard (H02)',
  metalGroup: 'copperAlloy',
  densityKgM3: 8500,
  youngsModulusMPa: 97_000,
  yieldStrengthMPa: 140,
  tensileStrengthMPa: 360,
  kienzle: getVdiGroup('26', 700, 0.27),
  jawFrictionFactor: 0.9,
  source: `strengths of ASTM B16 bar, ${TYPICAL}; density ${FROM_MEMORY}; ${FRICTION_FACTOR_SOURCE}`,
};

const GREY_IRON: Material = {
  id: 'material-grey-iron',
  name: 'Grey iron',
  designation: 'EN-GJL-250, continuous cast',
  metalGroup: 'castIron',
  densityKgM3: 7200,
  youngsModulusMPa: 110_000,
  yieldStrengthMPa: 165,
  tensileStrengthMPa: 250,
  kienzle: getVdiGroup('16', 1350, 0.28),
  jawFrictionFactor: 0.8,
  source: `tensile strength: EN 1561; 0.1 % proof stress and E ${FROM_MEMORY}; ${FRICTION_FACTOR_SOURCE}`,
};

const TITANIUM_GRADE_5: Material = {
  id: 'material-ti-6al-4v',
  name: 'Ti-6Al-4V',
  designation: 'Titanium grade 5, annealed',
  metalGroup: 'titanium',
  densityKgM3: 4430,
  youngsModulusMPa: 114_000,
  yieldStrengthMPa: 828,
  tensileStrengthMPa: 895,
  kienzle: {
    family: 'vdi3323',
    kc11MPa: 2110,
    mc: 0.22,
    source: `VDI 3323 group 37: printed constants differ by 1.7 times, the higher are taken, ${TYPICAL}`,
  },
  jawFrictionFactor: 1,
  source: 'least strengths: ASTM B348, grade 5',
};

/** Metals a shop starts with. Strengths are the least of the standard named, or say that they are typical. */
export const MATERIALS: Material[] = [
  LOW_CARBON_STEEL,
  STEEL_4140_ANNEALED,
  STEEL_42CRMO4_QT,
  STAINLESS_304,
  STAINLESS_316,
  ALUMINIUM_6061,
  ALUMINIUM_6082,
  ALUMINIUM_BRONZE_C954,
  BRASS_C360,
  GREY_IRON,
  TITANIUM_GRADE_5,
];
