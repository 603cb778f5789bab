/**
 * The row of a size.
 *
 * @throws RangeError naming the sizes that are held
 */
export function bySize<Row extends { readonly size: string }>(rows: readonly Row[], size: string): Row {
  const row = rows.find((each) => each.size === size);
  if (!row)
    throw new RangeError(`no size ${size} in stock: there are ${rows.map((each) => each.size).join(', ')}`);
  return row;
}
