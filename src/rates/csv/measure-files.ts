import { figure } from './cells.ts'
import { type KeyedRow, keyedFile } from './keyed-file.ts'
import type { Column, Field } from './rows.ts'

/** Rows for each of these keys; {key} in a path stands for it. */
function rowsFor(keys: string[], fields: Field[]): KeyedRow[] {
  return keys.map(key => ({
    key,
    fields: fields.map(field => ({ ...field, path: field.path.replace('{key}', key) })),
  }))
}

function figures(keyColumn: Column, fields: Omit<Field, 'cell'>[]): { columns: Column[]; fields: Field[] } {
  const filled = fields.map(field => ({ ...field, cell: figure }))
  return { columns: [keyColumn, ...filled], fields: filled }
}

const ways = figures({ name: 'way', meaning: 'tape, paces or eye' }, [
  {
    name: 'error',
    path: 'measuring.{key}.sigma',
    unit: 'share',
    meaning: 'of a length measured in that way',
  },
  {
    name: 'shared',
    path: 'measuring.{key}.rho',
    unit: 'share',
    meaning: 'how much of it is alike in all lengths of a job',
  },
])

export const measuringFile = keyedFile({
  file: 'measuring.csv',
  about: 'How far people are out when they measure.',
  columns: ways.columns,
  rows: rowsFor(['tape', 'paces', 'eye'], ways.fields),
  wordsOf: key => `measuring, ${key}`,
})

const layers = figures({ name: 'lying', meaning: 'bare, thin, fair, thick or unsure' }, [
  {
    name: 'depth',
    path: 'lying.{key}.m',
    unit: '{depth}',
    meaning: 'how deep what lies there is taken to be',
  },
  { name: 'give or take', path: 'lying.{key}.s', unit: '{depth}', meaning: 'how far that may be out' },
])

export const lyingFile = keyedFile({
  file: 'lying.csv',
  about: 'What homeowners say lies in the bed, as a depth.',
  columns: layers.columns,
  rows: rowsFor(['bare', 'thin', 'fair', 'thick', 'unsure'], layers.fields),
  wordsOf: key => `lying there, ${key}`,
})

const plants = figures({ name: 'planted', meaning: 'open, half or full' }, [
  { name: 'share', path: 'planted.{key}', unit: 'share', meaning: 'of the bed that plants take up' },
  { name: 'hours', path: 'labour.planted.{key}', unit: 'times', meaning: 'what it multiplies the hours by' },
])

export const plantedFile = keyedFile({
  file: 'planted.csv',
  about: 'What plants in the bed take up, and how much slower they make the work.',
  columns: plants.columns,
  rows: rowsFor(['open', 'half', 'full'], plants.fields),
  wordsOf: key => `planted ${key}`,
})
