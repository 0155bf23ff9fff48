/**
 * The value that would stand at a rank, from 0, if the values were sorted; puts them partly in order. Quicker than
 * sorting them all (C. A. R. Hoare, "Algorithm 65: find", Communications of the ACM 4, 1961). `from` is a smaller rank
 * that was asked for before: what stands before it then isn't looked at again.
 */
export function ranked(values: Float64Array, rank: number, from = 0): number {
  let [first, last] = [from, values.length - 1]
  while (first < last) {
    const pivot = values[rank]!
    let [left, right] = [first, last]
    while (left <= right) {
      while (values[left]! < pivot) left++
      while (values[right]! > pivot) right--
      if (left > right) break
      const swapped = values[left]!
      values[left] = values[right]!
      values[right] = swapped
      left++
      right--
    }
    if (right < rank) first = left
    if (left > rank) last = right
  }
  return values[rank]!
}
