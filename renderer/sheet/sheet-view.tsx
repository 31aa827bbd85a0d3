export function SheetView() {
  return <p>Sheet</p>;
}
