import type { Bounds } from './bounds';

/** Code and value pairs of an ASCII DXF file, with the handles its objects need. */
export interface DxfFile {
  readonly lines: string[];
  nextHandle: number;
}

/** Handles below this are given to the fixed objects of the file. */
const FIRST_HANDLE = 0x100;
const DIGITS = 6;
const HANDLES = { modelSpace: '1F', paperSpace: '1E', dictionary: 'C', groups: 'D' } as const;

export interface DxfLayer {
  name: string;
  /** Colour by index. */
  colour: number;
  lineType: string;
}

/** Line types with their strokes (positive) and gaps (negative), mm of paper. */
export interface DxfLineType {
  name: string;
  pattern: readonly number[];
}

export function createDxfFile(): DxfFile {
  return { lines: [], nextHandle: FIRST_HANDLE };
}

/** Adds pairs: group code and value in turn. */
export function addPairs(file: DxfFile, ...pairs: (number | string)[]): void {
  for (let index = 0; index + 1 < pairs.length; index += 2) {
    file.lines.push(String(pairs[index]), formatValue(pairs[index + 1] ?? ''));
  }
}

/** Begins an entity of model space. */
export function addEntity(file: DxfFile, type: string, layer: string, subclass: string): void {
  addPairs(file, 0, type, 5, takeHandle(file), 330, HANDLES.modelSpace, 100, 'AcDbEntity', 8, layer, 100, subclass);
}

function takeHandle(file: DxfFile): string {
  const handle = file.nextHandle.toString(16).toUpperCase();
  file.nextHandle += 1;
  return handle;
}

/** Coordinates to a nanometre; codes and counts are given as text. */
function formatValue(value: number | string): string {
  if (typeof value === 'string') {
    return value;
  }
  const text = value.toFixed(DIGITS).replace(/\.?0+$/u, '');
  return text === '-0' || text === '' ? '0.0' : text.includes('.') ? text : `${text}.0`;
}

/**
 * The whole file around some entities.
 *
 * @param entities file that holds the entities' pairs; its handles run on
 * @param lineTypeScale drawing mm to a mm of paper
 */
export function buildDxfText(
  entities: DxfFile,
  layers: readonly DxfLayer[],
  lineTypes: readonly DxfLineType[],
  bounds: Bounds,
  lineTypeScale: number,
): string {
  const file: DxfFile = { lines: [], nextHandle: entities.nextHandle };
  addTables(file, layers, lineTypes);
  addBlocks(file);
  const head = createDxfFile();
  addHeader(head, bounds, lineTypeScale, (file.nextHandle + 1).toString(16).toUpperCase());
  const tail = createDxfFile();
  addPairs(tail, 0, 'ENDSEC');
  addObjects(tail);
  addPairs(tail, 0, 'EOF');
  const section = ['0', 'SECTION', '2', 'ENTITIES'];
  return `${[...head.lines, ...file.lines, ...section, ...entities.lines, ...tail.lines].join('\r\n')}\r\n`;
}

/** Release 2000 text form, units set to mm: `$INSUNITS` 4, `$MEASUREMENT` 1. */
function addHeader(file: DxfFile, bounds: Bounds, lineTypeScale: number, seed: string): void {
  addPairs(file, 0, 'SECTION', 2, 'HEADER');
  addPairs(file, 9, '$ACADVER', 1, 'AC1015');
  addPairs(file, 9, '$HANDSEED', 5, seed);
  addPairs(file, 9, '$INSUNITS', 70, '4');
  addPairs(file, 9, '$MEASUREMENT', 70, '1');
  addPairs(file, 9, '$LUNITS', 70, '2');
  addPairs(file, 9, '$LTSCALE', 40, lineTypeScale);
  addPairs(file, 9, '$EXTMIN', 10, bounds.left, 20, bounds.bottom, 30, 0);
  addPairs(file, 9, '$EXTMAX', 10, bounds.right, 20, bounds.top, 30, 0);
  addPairs(file, 0, 'ENDSEC', 0, 'SECTION', 2, 'CLASSES', 0, 'ENDSEC');
}

function addTables(file: DxfFile, layers: readonly DxfLayer[], lineTypes: readonly DxfLineType[]): void {
  addPairs(file, 0, 'SECTION', 2, 'TABLES');
  addTable(file, 'VPORT', '8', 0, () => {});
  addTable(file, 'LTYPE', '5', lineTypes.length + 3, (owner) => {
    for (const name of ['ByBlock', 'ByLayer', 'Continuous']) {
      addRecord(file, 'LTYPE', owner, 'AcDbLinetypeTableRecord', name);
      addPairs(file, 70, '0', 3, '', 72, '65', 73, '0', 40, 0);
    }
    for (const lineType of lineTypes) {
      addLineType(file, owner, lineType);
    }
  });
  addTable(file, 'LAYER', '2', layers.length + 1, (owner) => {
    for (const layer of [{ name: '0', colour: 7, lineType: 'Continuous' }, ...layers]) {
      addRecord(file, 'LAYER', owner, 'AcDbLayerTableRecord', layer.name);
      addPairs(file, 70, '0', 62, String(layer.colour), 6, layer.lineType, 370, '-3');
    }
  });
  addTable(file, 'STYLE', '3', 1, (owner) => {
    addRecord(file, 'STYLE', owner, 'AcDbTextStyleTableRecord', 'Standard');
    addPairs(file, 70, '0', 40, 0, 41, 1, 50, 0, 71, '0', 42, 2.5, 3, 'arial.ttf', 4, '');
  });
  addTable(file, 'VIEW', '6', 0, () => {});
  addTable(file, 'UCS', '7', 0, () => {});
  addTable(file, 'APPID', '9', 1, (owner) => {
    addRecord(file, 'APPID', owner, 'AcDbRegAppTableRecord', 'ACAD');
    addPairs(file, 70, '0');
  });
  addDimensionStyles(file);
  addTable(file, 'BLOCK_RECORD', '1', 2, (owner) => {
    for (const [name, handle] of [
      ['*Model_Space', HANDLES.modelSpace],
      ['*Paper_Space', HANDLES.paperSpace],
    ] as const) {
      addPairs(file, 0, 'BLOCK_RECORD', 5, handle, 330, owner, 100, 'AcDbSymbolTableRecord');
      addPairs(file, 100, 'AcDbBlockTableRecord', 2, name);
    }
  });
  addPairs(file, 0, 'ENDSEC');
}

function addTable(file: DxfFile, name: string, handle: string, count: number, fill: (owner: string) => void): void {
  addPairs(file, 0, 'TABLE', 2, name, 5, handle, 330, '0', 100, 'AcDbSymbolTable', 70, String(count));
  fill(handle);
  addPairs(file, 0, 'ENDTAB');
}

function addDimensionStyles(file: DxfFile): void {
  addPairs(file, 0, 'TABLE', 2, 'DIMSTYLE', 5, 'A', 330, '0', 100, 'AcDbSymbolTable', 70, '0');
  addPairs(file, 100, 'AcDbDimStyleTable', 71, '0', 0, 'ENDTAB');
}

function addRecord(file: DxfFile, type: string, owner: string, subclass: string, name: string): void {
  addPairs(file, 0, type, 5, takeHandle(file), 330, owner, 100, 'AcDbSymbolTableRecord', 100, subclass, 2, name);
}

function addLineType(file: DxfFile, owner: string, { name, pattern }: DxfLineType): void {
  addRecord(file, 'LTYPE', owner, 'AcDbLinetypeTableRecord', name);
  const length = pattern.reduce((sum, piece) => sum + Math.abs(piece), 0);
  addPairs(file, 70, '0', 3, name.toLowerCase(), 72, '65', 73, String(pattern.length), 40, length);
  for (const piece of pattern) {
    addPairs(file, 49, piece, 74, '0');
  }
}

function addBlocks(file: DxfFile): void {
  addPairs(file, 0, 'SECTION', 2, 'BLOCKS');
  for (const [name, owner] of [
    ['*Model_Space', HANDLES.modelSpace],
    ['*Paper_Space', HANDLES.paperSpace],
  ] as const) {
    addPairs(file, 0, 'BLOCK', 5, takeHandle(file), 330, owner, 100, 'AcDbEntity', 8, '0', 100, 'AcDbBlockBegin');
    addPairs(file, 2, name, 70, '0', 10, 0, 20, 0, 30, 0, 3, name, 1, '');
    addPairs(file, 0, 'ENDBLK', 5, takeHandle(file), 330, owner, 100, 'AcDbEntity', 8, '0', 100, 'AcDbBlockEnd');
  }
  addPairs(file, 0, 'ENDSEC');
}

function addObjects(file: DxfFile): void {
  addPairs(file, 0, 'SECTION', 2, 'OBJECTS');
  addPairs(file, 0, 'DICTIONARY', 5, HANDLES.dictionary, 330, '0', 100, 'AcDbDictionary', 281, '1');
  addPairs(file, 3, 'ACAD_GROUP', 350, HANDLES.groups);
  addPairs(file, 0, 'DICTIONARY', 5, HANDLES.groups, 330, HANDLES.dictionary, 100, 'AcDbDictionary', 281, '1');
  addPairs(file, 0, 'ENDSEC');
}
