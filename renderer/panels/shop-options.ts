import type { Tool } from '../../shared/model/shop';
import { formatLength } from '../../shared/units/format';
import type { LengthUnits } from '../../shared/units/length-units';
import type { Option } from '../ui/select-field';

export function getNamedOptions(entries: readonly { readonly id: string; readonly name: string }[]): Option<string>[] {
  return entries.map(({ id, name }) => ({ id, label: name }));
}

export function getToolOptions(tools: readonly Tool[], units: LengthUnits): Option<string>[] {
  return tools.map((tool) => ({ id: tool.id, label: getToolName(tool), about: getToolAbout(tool, units) }));
}

export function getToolName(tool: Tool): string {
  return tool.number === '' ? tool.name : `${tool.number} ${tool.name}`;
}

function getToolAbout(tool: Tool, units: LengthUnits): string {
  const say = (mm: number): string => formatLength(mm, units);
  const size = `⌀ ${say(tool.diameter)}`;
  switch (tool.kind) {
    case 'endMill':
      return `${size}, flutes ${say(tool.fluteLength)}`;
    case 'keySeat':
      return `${size} × ${say(tool.width)}, neck ⌀ ${say(tool.neckDiameter)}`;
    case 'slittingSaw':
      return `${size} × ${say(tool.width)}, flange ⌀ ${say(tool.flangeDiameter)}`;
    case 'drill':
      return `${size}, flutes ${say(tool.fluteLength)}`;
    default:
      return tool satisfies never;
  }
}
