export function PartsView() {
  return <p>Parts</p>;
}
