/** A group code and its value, as they stand in the file. */
export interface DxfPair {
  code: number;
  value: string;
}

/** Anything the reader made of an entity. */
export type DxfRecord = Readonly<Record<string, unknown>>;

export function isRecord(value: unknown): value is DxfRecord {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** A number of a record; the fallback where it has none, NaN where it has one that is none. */
export function getNumber(record: DxfRecord, key: string, fallback: number = Number.NaN): number {
  const value = record[key];
  if (value === undefined || value === null) return fallback;
  return typeof value === 'number' ? value : Number.NaN;
}

export function getText(record: DxfRecord, key: string): string {
  const value = record[key];
  return typeof value === 'string' ? value.trim() : '';
}

export function getRecords(record: DxfRecord, key: string): DxfRecord[] {
  const value = record[key];
  return Array.isArray(value) ? value.filter(isRecord) : [];
}

export function getNumbers(record: DxfRecord, key: string): number[] {
  const value = record[key];
  return Array.isArray(value) ? value.map((entry) => (typeof entry === 'number' ? entry : Number.NaN)) : [];
}
