import { z } from 'zod'
import { decimal, declared, plainSlug } from './row.ts'

/** More layers than these nobody lays. */
export const MOST_LAYERS = 4

/**
 * What usually lies beneath a finish: the slug of another finish, and how deep, in in|cm (null: as deep as it usually
 * is), or of an extra by area, as fabric is.
 */
const layer = z.object({ slug: plainSlug(), depth: decimal({ above: 0 }).nullable() })

export type UsualLayer = z.infer<typeof layer>

export function layersBeneath(rest: { heading: string }) {
  return declared(z.array(layer).max(MOST_LAYERS), {
    ...rest,
    kind: 'layers',
    name: 'layers',
    label: 'Layer',
    unit: '{depth}',
    before: [],
    meaning: 'From the top down. Each is another finish, or an extra charged by area, like fabric.',
    inFiles:
      'Slugs with spaces between. After a colon, how deep a finish is: fabric compost:2 is fabric on 2 {depth} of compost.',
  })
}

type Slugged = { slug: string }

/** The finish or extra of a table that a slug names as a layer: undefined where there is none, or it is no layer. */
export function layerNamed<F extends Slugged, E extends Slugged & { per: string }>(
  slug: string,
  { finishes, extras }: { finishes: F[]; extras: E[] },
): { finish: F } | { extra: E } | undefined {
  const finish = finishes.find(one => one.slug === slug)
  if (finish) return { finish }
  const extra = extras.find(one => one.slug === slug && one.per === 'area')
  return extra && { extra }
}

/** What may be put beneath a bed: every finish, and of the extras by area those that are bought, or lie beneath a finish already. */
export function layerChoices<
  F extends Slugged & { layers: UsualLayer[] },
  E extends Slugged & { per: string; packs: unknown[] },
>({ finishes, extras }: { finishes: F[]; extras: E[] }): { finishes: F[]; extras: E[] } {
  const used = new Set(finishes.flatMap(({ layers }) => layers.map(({ slug }) => slug)))
  const isOne = ({ slug, per, packs }: E) => per === 'area' && (packs.length > 0 || used.has(slug))
  return { finishes, extras: extras.filter(isOne) }
}
