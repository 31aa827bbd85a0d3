import type { Tool, ToolMaterial } from '../model/shop';
import { computeSteppedDeflection, type RoundStep } from './beam';
import { getNonNegative } from './workings';

/** Young's modulus of tools, N/mm²: cemented carbide 550-640 GPa, high-speed steel 200-220 GPa; typical, from memory. */
export const TOOL_YOUNGS_MODULUS_MPA: Readonly<Record<ToolMaterial, number>> = { carbide: 600_000, hss: 210_000 };

export const TOOL_BENDING_SOURCE =
  "Mechanical Engineer's Data Handbook, cantilever; equivalent diameter of the flutes: Kops & Vo, CIRP Annals 39 (1990); E typical, from memory";

/**
 * A tool as a stepped round bar from its tip to the holder: flutes at their equivalent diameter, then neck, then shank.
 *
 * @param stickOut mm, from the holder's nose
 * @param equivalentFactor equivalent diameter of the fluted length over the cutter's diameter, 0.5 to 1
 */
export function getToolSteps(tool: Tool, stickOut: number, equivalentFactor: number): RoundStep[] {
  return cutToLength(getWholeSteps(tool, equivalentFactor), getNonNegative(stickOut), tool.shankDiameter);
}

/**
 * How far a tool's tip bends under a force across it.
 *
 * @param forceN N
 * @param stickOut mm
 * @returns mm
 */
export function computeToolDeflection(tool: Tool, forceN: number, stickOut: number, equivalentFactor: number): number {
  const steps = getToolSteps(tool, stickOut, equivalentFactor);
  return computeSteppedDeflection(forceN, TOOL_YOUNGS_MODULUS_MPA[tool.toolMaterial], steps);
}

/** Diameter that a tool's stick-out is judged by: the thinnest it hangs on, mm. */
export function getSlenderDiameter(tool: Tool): number {
  switch (tool.kind) {
    case 'endMill':
    case 'drill':
      return Math.min(tool.diameter, tool.shankDiameter);
    case 'keySeat':
      return Math.min(tool.neckDiameter, tool.shankDiameter);
    case 'slittingSaw':
      return tool.shankDiameter;
    default:
      return tool satisfies never;
  }
}

function getWholeSteps(tool: Tool, equivalentFactor: number): RoundStep[] {
  switch (tool.kind) {
    case 'endMill':
      return [
        { length: tool.fluteLength, diameter: tool.diameter * equivalentFactor },
        ...(tool.neck === null ? [] : [{ length: tool.neck.length, diameter: tool.neck.diameter }]),
      ];
    case 'drill':
      return [{ length: tool.fluteLength, diameter: tool.diameter * equivalentFactor }];
    case 'keySeat':
      return [
        { length: tool.width, diameter: tool.neckDiameter },
        { length: tool.neckLength, diameter: tool.neckDiameter },
      ];
    case 'slittingSaw':
      return [];
    default:
      return tool satisfies never;
  }
}

function cutToLength(steps: readonly RoundStep[], stickOut: number, shankDiameter: number): RoundStep[] {
  const cut: RoundStep[] = [];
  let left = stickOut;
  for (const step of steps) {
    const length = Math.min(left, getNonNegative(step.length));
    if (length > 0) cut.push({ length, diameter: step.diameter });
    left -= length;
  }
  return left > 0 ? [...cut, { length: left, diameter: shankDiameter }] : cut;
}
