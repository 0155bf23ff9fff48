import { layerChoices, MOST_LAYERS, type UsualLayer } from '../../../estimate/table/layer.ts'
import type { Finish, RateTable } from '../../../estimate/table/rate-table.ts'
import type { Row } from '../../../estimate/table/rows.ts'
import { choice, figure, orNone } from '../entries.ts'
import type { FormField } from '../section.ts'

/** What lies beneath a finish, and how deep: one more to pick than there are, so that another can be added. */
export function layerFields(
  { path, label, unit, meaning }: Row,
  finish: Finish,
  table: RateTable,
): FormField[] {
  const { finishes, extras } = layerChoices({
    ...table,
    extras: table.extras.map(extra => ({ ...extra, packs: extra.per === 'area' ? [extra] : [] })),
  })
  const others = [...finishes.filter(one => one.slug !== finish.slug), ...extras]
  const options = others.map(({ slug, name }): [string, string] => [slug, name.en])
  const places = others.length === 0 ? 0 : Math.min(MOST_LAYERS, finish.layers.length + 1)
  return Array.from({ length: places }, (_, place): FormField[] => [
    {
      path: `${path}.${place}.slug`,
      label: `${label} ${place + 1}`,
      entry: choice(['', 'none'], ...options),
      ...(place === 0 && meaning ? { hint: meaning } : {}),
    },
    {
      path: `${path}.${place}.depth`,
      label: `How deep layer ${place + 1} is`,
      entry: orNone(figure),
      ...(unit ? { unit } : {}),
      ...(place === 0 ? { hint: 'Empty: as deep as it usually is. An extra has no depth.' } : {}),
    },
  ]).flat()
}

/** The layers that were picked, without the places that were left empty. */
export function withLayers(
  table: RateTable,
  index: number,
  fault: (name: string, message: string) => void,
): RateTable {
  const typed: { slug: string | null; depth: string | null }[] = table.finishes[index]!.layers
  const picked = typed.flatMap(({ slug, depth }, place): UsualLayer[] => {
    if (slug !== null) return [{ slug, depth }]
    if (depth !== null) fault(`layers.${place}.slug`, 'Pick what is that deep.')
    return []
  })
  return {
    ...table,
    finishes: table.finishes.map((one, at) => (at === index ? { ...one, layers: picked } : one)),
  }
}
