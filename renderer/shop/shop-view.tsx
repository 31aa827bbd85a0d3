export function ShopView() {
  return <p>Shop</p>;
}
