import type { Finish, RateTable } from '../../../estimate/table/rate-table.ts'
import { choice, colour, figure, figureOrNone, percentOrNone, tick } from '../entries.ts'
import { type FormField, type Section, spanFields } from '../section.ts'
import { cautionTicks, names } from './shared-fields.ts'
import { listOfThings } from './things.ts'

const hatches = choice(
  ['shreds', 'Short strokes'],
  ['chips', 'Chips'],
  ['straw', 'Long strokes'],
  ['dots', 'Dots'],
  ['pebbles', 'Pebbles'],
)

const look: FormField[] = [
  { path: 'swatch', label: 'Colour', entry: colour, hint: 'Such as #8a5a2b.' },
  { path: 'hatch', label: 'How it is drawn', entry: hatches },
]

const depths: FormField[] = [
  {
    path: 'depth.least',
    label: 'Least depth',
    entry: figure,
    unit: '{depth}',
    hint: 'Thinner brings a caution.',
  },
  {
    path: 'depth.usual',
    label: 'Usual depth',
    entry: figure,
    unit: '{depth}',
    hint: 'Where none is asked for.',
  },
  {
    path: 'depth.greatest',
    label: 'Greatest depth',
    entry: figure,
    unit: '{depth}',
    hint: 'Deeper brings a caution.',
  },
]

const material: FormField[] = [
  {
    path: 'densityDry',
    label: 'Weight when dry',
    entry: figureOrNone,
    unit: '{weight} per {bulk}',
    hint: 'With it, loads are reckoned by weight.',
  },
  {
    path: 'densityWet',
    label: 'Weight when wet',
    entry: figureOrNone,
    unit: '{weight} per {bulk}',
    hint: 'With it, you are warned before a truck is overloaded.',
  },
  {
    path: 'thinnestTopUp',
    label: 'Thinnest top-up of its own',
    entry: figureOrNone,
    unit: '{depth}',
    hint: 'Empty: that of all finishes.',
  },
  {
    path: 'allowance',
    label: 'Allowance of its own for settling and loss',
    entry: percentOrNone,
    unit: '%',
    hint: 'Empty: that of all finishes.',
  },
]

const pricing: FormField[] = [
  {
    path: 'pricedBy',
    label: 'Priced by',
    entry: choice(['rate', 'the rates below'], ['cost', 'what it costs you, and a margin']),
  },
  {
    path: 'materialCost',
    label: 'What it costs you',
    entry: figureOrNone,
    unit: '{money} per {bulk}',
    hint: 'Where no pack of it is listed. With it, you see the margin.',
  },
  {
    path: 'materialShare',
    label: 'Share of its price shown as material',
    entry: percentOrNone,
    unit: '%',
    hint: 'Where tax makes you show laying apart. Empty: it isn’t shown apart.',
  },
]

const picking: FormField[] = [
  {
    path: 'offered',
    label: 'Homeowners are shown it',
    entry: tick,
    hint: 'Otherwise only you price with it.',
  },
  {
    path: 'soldOut',
    label: 'Sold out for now',
    entry: tick,
    hint: 'Then they can’t pick it.',
  },
]

const LEAST_SUBSTITUTES = 3

/** One more to pick than there are, so that another can be added. */
function substitutes(finish: Finish, { finishes }: RateTable): FormField[] {
  const others = finishes.filter(one => one.slug !== finish.slug)
  const places = Math.min(others.length, Math.max(LEAST_SUBSTITUTES, finish.substitutes.length + 1))
  const one = choice(['', 'none'], ...others.map(({ slug, name }): [string, string] => [slug, name.en]))
  return Array.from({ length: places }, (_, place): FormField => {
    const field = { path: `substitutes.${place}`, label: `Substitute ${place + 1}`, entry: one }
    return place === 0 ? { ...field, hint: 'What comes closest, where it is sold out.' } : field
  })
}

/** The list of finishes, and a form for each of them. */
export function finishSections(table: RateTable): Section[] {
  return [
    listOfThings({
      key: 'finishes',
      list: 'finishes',
      one: 'Finish',
      title: 'Finishes: which, and in what order',
      adds: 'Homeowners pick from these, in this order.',
      table,
    }),
    ...table.finishes.map((finish, index) => finishSection(finish, index, table)),
  ]
}

function finishSection(finish: Finish, index: number, table: RateTable): Section {
  const { depth, offered, soldOut } = finish
  const columns = ['0', ...table.tiers].map((from, column) => ({
    from: column === 0 ? 'Rate' : `Rate for jobs from ${from} {bulk}`,
    column,
  }))
  return {
    key: `finish.${finish.slug}`,
    title: finish.name.en,
    holds: `${depth.least} to ${depth.greatest} ${unitWord(table)} deep; priced by ${finish.pricedBy}${offered ? '' : '; not shown to homeowners'}${soldOut ? '; sold out' : ''}`,
    adds: 'Its names, colour, depths, weights and rates, and whether it can be picked.',
    base: `finishes.${index}`,
    under: true,
    parts: [
      { heading: 'What people read and see', fields: [...names, ...look] },
      { heading: 'For homeowners', fields: picking },
      { fields: substitutes(finish, table) },
      { heading: 'Depths', fields: depths },
      {
        heading: 'Price',
        fields: [
          ...pricing,
          ...columns.flatMap(({ from, column }) =>
            spanFields(`rates.${column}`, from, { entry: figure, unit: '{money} per {bulk}' }),
          ),
        ],
      },
      { heading: 'As a material', fields: material },
      { heading: 'Cautions', fields: [cautionTicks] },
    ],
    elsewhere: {
      path: `photo/${finish.slug}`,
      words: finish.photo === null ? 'Put a photo of it in' : 'Its photo',
    },
    close: (changed, _typed, fault) => withPicked(changed, index, fault),
  }
}

/** The substitutes that were picked, without the places that were left empty. */
function withPicked(
  table: RateTable,
  index: number,
  fault: (name: string, message: string) => void,
): RateTable {
  const picked: (string | null)[] = table.finishes[index]!.substitutes
  picked.forEach((slug, place) => {
    if (slug !== null && picked.indexOf(slug) !== place)
      fault(`substitutes.${place}`, 'It is picked above already.')
  })
  const substitutes = picked.filter(slug => slug !== null)
  return {
    ...table,
    finishes: table.finishes.map((one, at) => (at === index ? { ...one, substitutes } : one)),
  }
}

function unitWord({ units }: Pick<RateTable, 'units'>): string {
  return units === 'us' ? 'in' : 'cm'
}
