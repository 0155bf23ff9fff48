import type { z } from 'zod'
import { cautionsSchema } from '../../../estimate/ballpark/caution-figures.ts'
import { starterCautions } from '../../../estimate/starter/starter-cautions.ts'
import { cautionName, isBuiltIn } from '../../../estimate/table/caution.ts'
import type { RateTable } from '../../../estimate/table/rate-table.ts'
import { plainWords } from '../../../language/caution-in-words.ts'
import { listOf } from '../figure-fields.ts'
import type { FieldsPart, FormField, Section } from '../section.ts'
import { slugOf } from './things.ts'

/** The form of all warnings: those that the table lacks stand there switched off, and one of the owner's own can be added. */
export function cautionSection(table: RateTable, figures: z.ZodObject): Section {
  const shown = table.cautions.filter(one => one.shown)
  return {
    key: 'cautions',
    title: 'Cautions',
    holds: shown.map(({ code }) => cautionName(code)).join(', ') || 'none',
    adds: 'Warnings shown where they matter, with a figure and a source. Change them, turn them off, or add your own. Then check them under the materials and extras they go with.',
    base: '',
    parts: [
      {
        ...listOf('cautions', 'Caution', table, figures),
        named: ({ code }) => cautionName(String(code)),
        says: ({ code }) => plainlySaid(String(code)),
      },
    ],
    schema: cautionsSchema,
    open: withAll,
    close: (changed, _typed, _fault, before) => withCodes(changed, before),
  }
}

function plainlySaid(code: string): string | null {
  return isBuiltIn(code) ? `“${plainWords(code)}”` : null
}

function withAll(table: RateTable): RateTable {
  const has = (code: string) => table.cautions.some(one => one.code === code)
  const others = starterCautions(table.units).filter(({ code }) => !has(code))
  return { ...table, cautions: [...table.cautions, ...others.map(one => ({ ...one, shown: false }))] }
}

// What was off before and still is isn't taken in; what is new is known by its words from now on.
function withCodes(changed: RateTable, before: RateTable): RateTable {
  const isThere = (code: string) => before.cautions.some(one => one.code === code)
  const cautions = changed.cautions.filter(
    ({ code, shown }) => shown || !code || !isBuiltIn(code) || isThere(code),
  )
  const taken = new Set(cautions.map(({ code }) => code))
  return {
    ...changed,
    cautions: cautions.map(one => {
      if (one.code) return one
      const start = slugOf(one.words.en ?? '') || 'caution'
      let [code, number] = [start, 2]
      while (taken.has(code) || isBuiltIn(code)) code = `${start}-${number++}`
      taken.add(code)
      return { ...one, code }
    }),
  }
}

/** Fields of a finish or an extra with the owner's own warnings among those to tick. */
export function withOwnCautions(parts: FieldsPart[], { cautions }: RateTable): FieldsPart[] {
  const own = cautions
    .filter(({ code }) => !isBuiltIn(code))
    .map(({ code }) => ({ value: code, label: cautionName(code) }))
  const ticked = (field: FormField) => (field.ticks ? { ...field, ticks: [...field.ticks, ...own] } : field)
  return own.length === 0 ? parts : parts.map(part => ({ ...part, fields: part.fields.map(ticked) }))
}
