import type { Scene, ScenePart } from '../../../shared/drawing/scene';

/** "Pawl arm 2": the part's name, numbered where the bar carries more than one. */
export function getPieceName(scene: Scene, piece: ScenePart): string {
  const alike = scene.parts.filter((other) => other.part.id === piece.part.id);
  const name = piece.part.name.trim() === '' ? 'part' : piece.part.name.trim();
  return alike.length > 1 ? `${name} ${alike.indexOf(piece) + 1}` : name;
}
