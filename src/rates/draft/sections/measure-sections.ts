import { cautionCodes, type RateTable } from '../../../estimate/table/rate-table.ts'
import { anyText, choice, figure, percent, textOrAbsent } from '../entries.ts'
import type { FormField, Section } from '../section.ts'

const layers = { bare: 'bare', thin: 'thin', fair: 'fair', thick: 'thick', unsure: 'not sure' } as const
const ways = { tape: 'by tape', paces: 'in paces', eye: 'by eye' } as const
const plants = { open: 'few', half: 'half', full: 'full' } as const

const lying = Object.entries(layers).flatMap(([key, words]): FormField[] => [
  { path: `lying.${key}.m`, label: `“${words}” is`, entry: figure, unit: '{depth}' },
  { path: `lying.${key}.s`, label: `“${words}”, give or take`, entry: figure, unit: '{depth}' },
])

const measuring = Object.entries(ways).flatMap(([key, words]): FormField[] => [
  { path: `measuring.${key}.sigma`, label: `Error of a length ${words}`, entry: percent, unit: '%' },
  {
    path: `measuring.${key}.rho`,
    label: `Of that shared by all lengths of a job`,
    entry: percent,
    unit: '%',
  },
])

const planted = Object.entries(plants).map(
  ([key, words]): FormField => ({
    path: `planted.${key}`,
    label: `Share of a bed that plants take up: ${words}`,
    entry: percent,
    unit: '%',
  }),
)

export function bedsSection({ allowance, thinnestTopUp }: RateTable): Section {
  return {
    key: 'beds',
    title: 'Beds: allowance, plants, what lies there',
    holds: `allowance ${percent.write(allowance)} %, thinnest top-up ${thinnestTopUp}`,
    adds: 'With figures of your own, volumes fit the beds that you see.',
    base: '',
    parts: [
      {
        fields: [
          { path: 'allowance', label: 'Allowance for settling and loss', entry: percent, unit: '%' },
          {
            path: 'thinnestTopUp',
            label: 'Thinnest top-up',
            entry: figure,
            unit: '{depth}',
            hint: 'A thinner layer can’t be spread.',
          },
          ...planted,
        ],
      },
      { heading: 'What homeowners say lies there', fields: lying },
      {
        heading: 'Depths lying there',
        fields: [
          { path: 'lyingTold', label: 'One that was told, give or take', entry: figure, unit: '{depth}' },
          {
            path: 'lyingMeasured',
            label: 'One that was measured, give or take',
            entry: figure,
            unit: '{depth}',
          },
        ],
      },
    ],
  }
}

export function rangesSection({ promise, step, currency }: RateTable): Section {
  return {
    key: 'ranges',
    title: 'Ranges: errors of measuring, promise, step',
    holds: `${percent.write(promise)} % of jobs inside, to ${step} ${currency}`,
    adds: 'With errors that you have seen, ranges are as wide as they must be and no wider.',
    base: '',
    parts: [
      {
        fields: [
          { path: 'promise', label: 'Jobs that end up inside their range', entry: percent, unit: '%' },
          { path: 'step', label: 'Ranges are rounded to', entry: figure, unit: '{money}' },
        ],
      },
      {
        heading: 'Measuring',
        fields: [...measuring, { path: 'pace', label: 'A pace', entry: figure, unit: '{length}' }],
      },
    ],
  }
}

export function cautionsSection({ cautions }: RateTable): Section {
  const codes = cautionCodes.map((code): [string, string] => [code, code.replaceAll('-', ' ')])
  return {
    key: 'cautions',
    title: 'Cautions',
    holds: cautions.map(({ code }) => code.replaceAll('-', ' ')).join(', ') || 'none',
    adds: 'Warnings that are shown where they matter, with whose advice they are. One left out is never shown.',
    base: '',
    parts: [
      {
        list: 'cautions',
        one: 'Caution',
        blank: { source: '' },
        ordered: true,
        fields: () => [
          { path: 'code', label: 'Warning', entry: choice(...codes) },
          {
            path: 'figure',
            label: 'Its figure',
            entry: textOrAbsent,
            hint: 'With its unit, where it has one: 18 in.',
          },
          { path: 'source', label: 'Whose advice or rule it is', entry: anyText },
        ],
      },
    ],
  }
}
