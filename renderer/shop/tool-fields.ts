import type { Tool } from '../../shared/model/shop';
import { choice, type FieldGroup, type FieldSpec, length, quantity, size, source, text } from './field-spec';

const KIND_FIELDS: Readonly<Record<Tool['kind'], readonly FieldSpec[]>> = {
  endMill: [
    size('Flute length', 'fluteLength'),
    length('Corner radius', 'cornerRadius'),
    quantity('Helix, °', 'ratio', 'helixDeg'),
    {
      kind: 'optional',
      label: 'Has a relieved neck',
      path: ['neck'],
      first: { diameter: 11.5, length: 50 },
      fields: [size('Neck diameter', 'diameter'), size('Neck length', 'length')],
    },
  ],
  keySeat: [
    size('Width, measured', 'width'),
    size('Neck diameter', 'neckDiameter'),
    length('Neck length', 'neckLength'),
    text('Number, ASME B17.2', 'keyNumber'),
  ],
  slittingSaw: [
    size('Width, measured', 'width'),
    size('Flange diameter', 'flangeDiameter'),
    length('Arbor length', 'arborLength'),
    length('Screw below the saw', 'screwHeight'),
  ],
  drill: [size('Flute length', 'fluteLength'), quantity('Point angle, °', 'ratio', 'pointAngleDeg')],
};

/** The form of a tool: what all have, then what its kind has. */
export function getToolGroups(tool: Tool): readonly FieldGroup[] {
  return [
    {
      title: 'Tool',
      fields: [
        text('Number', 'number'),
        text('Name', 'name'),
        choice('Made of', { carbide: 'carbide', hss: 'high-speed steel' }, 'toolMaterial'),
        size('Diameter, measured', 'diameter'),
        quantity('Flutes', 'count', 'flutes'),
        size('Shank diameter', 'shankDiameter'),
        size('Overall length', 'overallLength'),
        quantity('Wear, times force', 'ratio', 'wearFactor'),
        quantity('Coating, times force', 'ratio', 'coatingFactor'),
        source,
      ],
    },
    { title: 'Of its kind', fields: KIND_FIELDS[tool.kind] },
  ];
}
