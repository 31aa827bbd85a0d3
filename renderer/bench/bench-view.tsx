/** The canvas: elevation, section, plan and height stack. */
export function BenchView() {
  return <section aria-label="Bench" className="bench" />;
}
