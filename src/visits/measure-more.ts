import type { BedTold } from '../estimate/job/bed.ts'
import type { Extra, RateTable } from '../estimate/table/rate-table.ts'
import { unitSystem } from '../estimate/units/units.ts'
import { type Group, textOf } from '../http/nested-fields.ts'

/** What the sheet asks of a bed under 'More about this bed', as typed. */
export interface MoreFields {
  work: string
  cutOuts: string
  noEdge: string
  carry: string
  stairs: string
  /** This bed's own, ticked or chosen, by their slugs. */
  extras: string[]
}

const TEXTS = ['work', 'cutOuts', 'noEdge', 'carry', 'stairs'] as const

/** As posted: extras of no group are ticks, of each group one is chosen. */
export function moreOf(typed: Group): MoreFields {
  const [work, cutOuts, noEdge, carry, stairs] = TEXTS.map(name => textOf(typed[name]).trim())
  const ticked = Array.isArray(typed.extras) ? typed.extras.map(textOf) : []
  const chosen = typeof typed.groups === 'object' ? Object.values(typed.groups).map(textOf) : []
  const extras = [...ticked, ...chosen].filter(Boolean)
  return { work: work!, cutOuts: cutOuts!, noEdge: noEdge!, carry: carry!, stairs: stairs!, extras }
}

/** As told or measured before. */
export function moreBefore(bed: Partial<BedTold>): MoreFields {
  const { work = '', cutOuts = '', noEdge = '', carry = '', stairs = '', extras = [] } = bed
  return { work: work === 'top-up' ? '' : work, cutOuts, noEdge, carry, stairs, extras }
}

/** As it is kept: what wasn't said is left out. */
export function moreTold(more: MoreFields): Partial<BedTold> {
  const said = TEXTS.filter(name => more[name] !== '').map(name => [name, more[name]])
  return { ...Object.fromEntries(said), ...(more.extras.length > 0 ? { extras: more.extras } : {}) }
}

/** The field on the sheet that a fault in a bed's own extras belongs to, behind 'beds.N.'. */
export function extraField(slug: string | undefined, table: RateTable): string {
  const extra = table.extras.find(one => one.slug === slug)
  if (!extra) return 'extras'
  return extra.group === null ? `extras.${extra.slug}` : `groups.${extra.group}`
}

/** What the sheet offers there. What is done once for a whole job is no bed's own. */
export function moreChoices(table: RateTable) {
  const own = table.extras.filter(extra => extra.per !== 'job')
  const groups = [...new Set(own.map(extra => extra.group))].filter(group => group !== null)
  const system = unitSystem(table.units)
  const option = ({ slug, name }: Extra) => ({ value: slug, label: name.en })
  return {
    lengthUnit: system.length,
    cutOutHint:
      system.name === 'us'
        ? 'As 4 x 3 ft; 3 of 2 ft across; 10 sq ft'
        : 'As 1.2 x 1 m; 3 of 0.6 m across; 1 m²',
    ownExtras: own.filter(extra => extra.group === null).map(({ slug, name }) => ({ slug, text: name.en })),
    groups: groups.map(group => ({
      group,
      text: group.charAt(0).toUpperCase() + group.slice(1).replaceAll('-', ' '),
      options: [{ value: '', label: 'None' }, ...own.filter(extra => extra.group === group).map(option)],
    })),
  }
}
