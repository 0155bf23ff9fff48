import { cautionCodes } from '../../../estimate/table/rate-table.ts'
import { text } from '../entries.ts'
import type { FormField } from '../section.ts'

export const names: FormField[] = [
  { path: 'name.en', label: 'Name in English', entry: text },
  { path: 'name.es', label: 'Name in Spanish', entry: text },
]

export const cautionTicks: FormField = {
  path: 'cautions',
  label: 'Cautions that go with it',
  entry: text,
  ticks: cautionCodes.map(value => ({ value, label: value.replaceAll('-', ' ') })),
}
