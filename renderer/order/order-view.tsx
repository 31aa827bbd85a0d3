export function OrderView() {
  return <p>Order</p>;
}
