import type { ShopHead } from '#contracts/shop.ts';
import './head-of-paper.css';

/** The shop at the head of a paper: its name, its address in lines, and how it is reached. */
export function HeadOfPaper({ of: { name, address, phone, email } }: { readonly of: ShopHead }) {
  const reached = [phone, email].filter((each) => each !== '').join(', ');
  return (
    <span className="head-of-paper">
      {name}
      {address === '' ? null : <small>{address}</small>}
      {reached === '' ? null : <small>{reached}</small>}
    </span>
  );
}
