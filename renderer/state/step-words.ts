/**
 * A label as it stands inside the name of a step: its first letter small, the names in it as they are written.
 *
 * @example getStepWords('Length of Pawl arm') // 'length of Pawl arm'
 * @example getStepWords('X of hole 1') // 'X of hole 1'
 */
export function getStepWords(label: string): string {
  return /^\p{Lu}\p{Ll}/u.test(label) ? label.charAt(0).toLowerCase() + label.slice(1) : label;
}
