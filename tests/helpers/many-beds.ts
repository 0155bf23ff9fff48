import type { BedTold } from '../../src/estimate/job/bed.ts'
import { bedTold } from './requests.ts'

const SHAPES: Pick<BedTold, 'shape' | 'sizes'>[] = [
  { shape: 'rectangle', sizes: { length: `20' 6"`, width: 'about 5' } },
  { shape: 'oval', sizes: { length: '18', width: '9 paces' } },
  { shape: 'tree-ring', sizes: { inner: '3', band: '3.5' } },
]
const FINISHES = ['shredded-wood', 'stone', 'compost']

/** So many beds that differ, measured by eye; what lies there nobody is sure of. */
export function manyBeds(count: number): BedTold[] {
  return Array.from({ length: count }, (_, index) =>
    bedTold({
      ...SHAPES[index % 3],
      measuredBy: 'eye',
      lying: 'unsure',
      finish: FINISHES[index % 3]!,
      depth: '',
    }),
  )
}

/** The same as the fields of the form. */
export function manyBedsTyped(count: number): Record<string, string> {
  const fields = manyBeds(count).flatMap((bed, index) => {
    const { sizes, shape, finish, lying } = bed
    const named = Object.entries(sizes).map(([name, value]) => [`sizes.${name}`, value])
    return [['shape', shape], ['finish', finish], ['lying', lying], ...named].map(([name, value]) => [
      `beds.${index}.${name}`,
      value,
    ])
  })
  return Object.fromEntries(fields)
}
