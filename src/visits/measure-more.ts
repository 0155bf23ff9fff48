import type { BedTold } from '../estimate/job/bed.ts'
import type { Extra, RateTable } from '../estimate/table/rate-table.ts'
import { unitSystem } from '../estimate/units/units.ts'
import type { FormFields } from '../http/form-fields.ts'

const TEXTS = ['work', 'cutOuts', 'noEdge', 'carry', 'stairs', 'slope', 'gate'] as const

/** What the sheet asks of a bed under 'More about this bed'; what wasn't said is left out. */
type More = Pick<BedTold, (typeof TEXTS)[number] | 'extras'>

export function morePosted(posted: FormFields): More {
  const texts = TEXTS.map(name => [name, posted.text(name)])
  return moreSaid({ ...Object.fromEntries(texts), extras: extrasPosted(posted) })
}

/** Extras as posted, of a bed or of the whole job: those of no group are ticks, of each group one is chosen. */
export function extrasPosted(posted: FormFields): string[] {
  const groups = posted.group('groups')
  const chosen = groups.names().map(name => groups.text(name))
  return [...posted.ticks('extras'), ...chosen].filter(Boolean)
}

/** That alone, of a bed with all its fields. */
export function moreSaid(bed: More): More {
  const said = [...TEXTS, 'extras' as const].filter(name => bed[name]?.length)
  return Object.fromEntries(said.map(name => [name, bed[name]]))
}

/** The field on the sheet that a fault in extras belongs to; of a bed's own, behind 'beds.N.'. */
export function extraField(slug: string | undefined, table: RateTable): string {
  const extra = table.extras.find(one => one.slug === slug)
  if (!extra) return 'extras'
  return extra.group === null ? `extras.${extra.slug}` : `groups.${extra.group}`
}

/** Extras to choose from: ticks, and for each group one choice of them or none. */
export interface ExtraChoices {
  ticks: { slug: string; text: string }[]
  groups: { group: string; text: string; options: { value: string; label: string }[] }[]
}

/** What the sheet offers there. What is done once for a whole job is no bed's own. */
export function moreChoices(table: RateTable) {
  const system = unitSystem(table.units)
  const slows = (times: string) => Number(times) > 1
  return {
    lengthUnit: system.length,
    cutOutHint:
      system.name === 'us'
        ? 'Such as 4 x 3 ft; 3 of 2 ft across; 10 sq ft'
        : 'Such as 1.2 x 1 m; 3 of 0.6 m across; 1 m²',
    // What the owner has no figure for would change nothing.
    asksSlope: slows(table.labor.slope) || slows(table.labor.steep),
    asksGate: slows(table.labor.gate),
    extras: choicesAmong(table.extras),
    ownExtras: choicesAmong(table.extras.filter(extra => extra.per !== 'job')),
  }
}

function choicesAmong(extras: Extra[]): ExtraChoices {
  const groups = [...new Set(extras.map(extra => extra.group))].filter(group => group !== null)
  const option = ({ slug, name }: Extra) => ({ value: slug, label: name.en })
  return {
    ticks: extras.filter(extra => extra.group === null).map(({ slug, name }) => ({ slug, text: name.en })),
    groups: groups.map(group => ({
      group,
      text: group.charAt(0).toUpperCase() + group.slice(1).replaceAll('-', ' '),
      options: [{ value: '', label: 'None' }, ...extras.filter(extra => extra.group === group).map(option)],
    })),
  }
}
