import type { z } from 'zod'
import type { RateTable } from '../../estimate/table/rate-table.ts'
import type { Errors, Typed } from '../../http/posted.ts'
import { Decimal } from '../../lib/decimal.ts'
import { issueInWords } from '../csv/table-from-files.ts'
import type { FormField, Section } from './section.ts'
import { isList, kindOf } from './section.ts'

type Issue = z.core.$ZodIssue

/** What is wrong with the whole table after a section was read into it, beside the fields of its form. */
export function tableFaults(
  section: Section,
  issues: Issue[],
  places: Map<string, string>,
  typed: Typed,
  table: RateTable,
): Errors {
  const errors: Errors = {}
  const told = new Set<string>()
  const others: Issue[] = []
  for (const issue of issues) {
    const field = fieldAt(section, pathOf(issue), places, typed)
    if (!field) others.push(issue)
    else {
      errors[field.name] ??= sentence(issueInWords(issue), field.field.entry.percent ?? false)
      told.add(issueInWords(issue))
    }
  }
  // What is wrong with the whole table may be told of several places in it.
  const elsewhere = others.find(issue => !told.has(issueInWords(issue)))
  return elsewhere ? { ...errors, '': ofAnother(elsewhere, table) } : errors
}

function pathOf(issue: Issue): string {
  return issue.path.map(String).join('.')
}

function fieldAt(
  section: Section,
  path: string,
  places: Map<string, string>,
  typed: Typed,
): { name: string; field: FormField } | undefined {
  if (section.base && !path.startsWith(`${section.base}.`)) return undefined
  const inner = section.base ? path.slice(section.base.length + 1) : path
  const place = [...places].find(([at]) => `${inner}.`.startsWith(at))
  const fields = section.parts.flatMap(part => {
    if (!isList(part)) return part.fields.map(field => ({ name: field.path, field }))
    if (!place?.[0].startsWith(`${part.list}.`)) return []
    return part
      .fields(kindOf(part, typed[`${place[1]}kind`]))
      .map(field => ({ name: `${place[1]}${field.path}`, field }))
  })
  const name = place ? `${place[1]}${`${inner}.`.slice(place[0].length).replace(/\.$/, '')}` : inner
  return (
    fields.find(one => one.name === name) ??
    // A fault of a whole stands at its first field; one within a field's list at the field.
    fields.find(one => one.name.startsWith(name.replace(/\.$/, ''))) ??
    fields.find(one => name.startsWith(`${one.name}.`))
  )
}

function ofAnother(issue: Issue, table: RateTable): string {
  const path = pathOf(issue)
  const [list, index] = path.split('.')
  const thing = list === 'finishes' || list === 'extras' ? table[list][Number(index)]?.name.en : undefined
  return sentence(`${thing ?? path}: ${issueInWords(issue)}`, false)
}

function sentence(message: string, percent: boolean): string {
  const figures = percent
    ? message.replace(/\d+(\.\d+)?/g, share => `${new Decimal(share).times(100)}%`)
    : message
  return `${figures.charAt(0).toUpperCase()}${figures.slice(1)}.`
}
