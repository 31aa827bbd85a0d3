import { type FieldSpec, length, quantity, size, text } from './field-spec';
import { ShopField } from './shop-fields';

const SHOP_FIELDS: readonly FieldSpec[] = [text('Name', 'name'), text('Currency', 'currency')];

const MACHINE_FIELDS: readonly FieldSpec[] = [
  text('Name', 'name'),
  size('Table length, X', 'tableLength'),
  size('Table width, Y', 'tableWidth'),
  size('Travel X', 'travelX'),
  size('Travel Y', 'travelY'),
  size('Spindle nose above table, at most', 'spindleToTable'),
  quantity('Spindle power', 'power', 'spindlePowerKw'),
  quantity('Fastest spindle speed', 'spindleSpeed', 'maxSpindleRpm'),
  length('Between T-slots', 'tSlotPitch'),
  { kind: 'text', label: 'Source', path: ['source'], lines: 2 },
];

export function MachineForm() {
  return (
    <section className="entry-form is-alone" aria-label="Shop and machine">
      <h2>Shop and machine</h2>
      <p className="form-about">
        Everything here is yours to change, and is saved by itself. What came with the program is typical: measure your
        own.
      </p>
      <div className="form-groups">
        <fieldset className="form-group">
          <legend>Shop</legend>
          {SHOP_FIELDS.map((spec) => (
            <ShopField key={spec.label} spec={spec} base={[]} of="the shop" />
          ))}
        </fieldset>
        <fieldset className="form-group">
          <legend>Machine</legend>
          {MACHINE_FIELDS.map((spec) => (
            <ShopField key={spec.label} spec={spec} base={['machine']} of="the machine" />
          ))}
        </fieldset>
      </div>
    </section>
  );
}
