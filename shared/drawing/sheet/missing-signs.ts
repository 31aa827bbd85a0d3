import { getFieldWords } from '../../model/field-words';
import type { Plan } from '../../model/plan';
import { findMissingSigns } from '../font-coverage';

/** Signs of one field of the plan that the sheet's fonts cannot show. */
export interface FieldSigns {
  /** In words, such as "Part 2, name". */
  field: string;
  signs: string[];
}

/** The fields of a plan that hold signs the sheet's fonts have no shape for, in the order of the plan. */
export function findFieldSigns(plan: Plan): FieldSigns[] {
  return listTexts(plan, []).flatMap(({ path, text }) => {
    const signs = findMissingSigns(text);
    return signs.length === 0 ? [] : [{ field: getFieldWords(path), signs }];
  });
}

interface TextField {
  path: (string | number)[];
  text: string;
}

function listTexts(value: unknown, path: (string | number)[]): TextField[] {
  if (typeof value === 'string') return [{ path, text: value }];
  if (Array.isArray(value)) return value.flatMap((inner, index) => listTexts(inner, [...path, index]));
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => listTexts(inner, [...path, key]));
}

/** A sign with its number in Unicode, by which it can be found: `🔧 U+1F527`. */
export function getSignText(sign: string): string {
  const number = (sign.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0');
  return `${sign} U+${number}`;
}
