import { useState } from 'react';
import { Input, SearchField } from 'react-aria-components';
import { RULE_BOOK, type RuleEntry, type RuleKey } from '../../shared/model/rules';
import type { TypedKind } from '../../shared/units/quantity-units';
import { type EntryReader, getLengthReader, getQuantityReader } from '../state/entry';
import { useApp, usePlan, useShop } from '../state/hooks';
import { getStepWords } from '../state/step-words';
import { Button } from '../ui/button';
import { NumberField } from '../ui/number-field';

const RULES = Object.entries(RULE_BOOK) as readonly (readonly [RuleKey, RuleEntry])[];

/** Every house rule with its value, its source, and the way back to the value it began with. */
export function RulesForm() {
  const [wanted, setWanted] = useState('');
  const rows = RULES.filter(([, rule]) =>
    `${rule.label} ${rule.source}`.toLowerCase().includes(wanted.trim().toLowerCase()),
  );
  return (
    <section className="rules-form" aria-label="House rules">
      <header>
        <h2>House rules</h2>
        <p>
          Defaults, never laws. A rule marked “common practice, no source” is a place to start; your own experience
          stands above it.
        </p>
        <SearchField aria-label="Find a rule" className="search-field" value={wanted} onChange={setWanted}>
          <Input className="input" placeholder={`Find among ${RULES.length}`} />
        </SearchField>
      </header>
      <div className="scroll-box">
        <table className="data-table">
          <thead>
            <tr>
              <th scope="col">Rule</th>
              <th scope="col" className="is-number">
                Value
              </th>
              <th scope="col">Source</th>
              <th scope="col">
                <span className="visually-hidden">Back to the first value</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {rows.map(([key, rule]) => (
              <RuleRow key={key} ruleKey={key} rule={rule} />
            ))}
          </tbody>
        </table>
      </div>
    </section>
  );
}

function RuleRow({ ruleKey, rule }: { ruleKey: RuleKey; rule: RuleEntry }) {
  const { documents } = useApp();
  const { units } = usePlan();
  const shop = useShop();
  const value = shop.rules[ruleKey];
  const reader = getBoundedReader(rule, units);
  const shown = (mm: number): string => `${reader.show(mm)} ${reader.unit}`.trim();
  const set = (next: number): void =>
    documents.editShop(`shop: ${getStepWords(rule.label)}: ${shown(next)}`, (before) => ({
      ...before,
      rules: { ...before.rules, [ruleKey]: next },
    }));
  return (
    <tr>
      <td>{rule.label}</td>
      <td className="rule-value">
        <NumberField label={rule.label} hideLabel reader={reader} value={value} onCommit={set} />
      </td>
      <td className="rule-source">{rule.source}</td>
      <td className="row-buttons">
        {value !== rule.value && (
          <Button
            look="quiet"
            className="small-button"
            aria-label={`Back to ${shown(rule.value)}: ${rule.label}`}
            onPress={() => set(rule.value)}
          >
            Back to {shown(rule.value)}
          </Button>
        )}
      </td>
    </tr>
  );
}

function getBoundedReader(rule: RuleEntry, units: 'in' | 'mm'): EntryReader {
  if (rule.kind !== 'length') {
    return getQuantityReader(rule.kind as TypedKind, units, { min: rule.least, max: rule.most });
  }
  const reader = getLengthReader(units, { allowNegative: rule.least < 0 });
  return {
    ...reader,
    read(text) {
      const entry = reader.read(text);
      if (entry.kind !== 'value' || (entry.value >= rule.least && entry.value <= rule.most)) return entry;
      return {
        kind: 'refused',
        sentence: `This rule takes ${reader.show(rule.least)} to ${reader.show(rule.most)} ${units}.`,
      };
    },
  };
}
