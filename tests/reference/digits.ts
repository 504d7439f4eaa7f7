/** How many leading digits of a value agree with a certified one; 15 where a double can tell no more. */
export function digitsHeld(found: number, certified: number): number {
  if (found === certified) return 15
  const off = certified === 0 ? Math.abs(found) : Math.abs(found / certified - 1)
  return Math.min(15, -Math.log10(off))
}
