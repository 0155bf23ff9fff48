import type { RateTable } from '../../../estimate/table/rate-table.ts'
import { choice, figure, figureOrNone, percent, percentOrNone } from '../entries.ts'
import { type FormField, type Section, spanFields } from '../section.ts'
import { names } from './shared-fields.ts'

const HOURS = 'h per {bulk}'

export function labourSection({ labour }: RateTable): Section {
  const planted = (['open', 'half', 'full'] as const).map(
    (how): FormField => ({
      path: `labour.planted.${how}`,
      label: `Where plants are ${{ open: 'few', half: 'in half the bed', full: 'all over it' }[how]}, hours times`,
      entry: figure,
      unit: 'times',
    }),
  )
  return {
    key: 'labour',
    title: 'Labor',
    holds: `spreading ${labour.spread.lower} to ${labour.spread.upper} h; set-up and trips ${labour.setUp.lower} h, ${labour.trip.lower} h`,
    adds: 'With carrying, stairs and trips in, crew hours fit the place, and so do work days.',
    base: '',
    parts: [
      {
        fields: [
          ...spanFields('labour.spread', 'Spreading', { entry: figure, unit: HOURS, hint: 'Of one person.' }),
          ...planted,
        ],
      },
      {
        heading: 'From the heap to the bed',
        fields: [
          { path: 'labour.carry.free', label: 'No slower up to', entry: figure, unit: '{length}' },
          { path: 'labour.carry.each', label: 'Beyond that, each', entry: figure, unit: '{length}' },
          { path: 'labour.carry.adds', label: 'adds to the hours', entry: percent, unit: '%' },
          { path: 'labour.stair', label: 'Each stair adds to the hours', entry: percent, unit: '%' },
        ],
      },
      {
        heading: 'Round about',
        fields: [
          ...spanFields('labour.trip', 'A trip to the yard and back', { entry: figure, unit: 'h' }),
          ...spanFields('labour.setUp', 'Setting up, once a job', { entry: figure, unit: 'h' }),
        ],
      },
    ],
  }
}

export function carriersSection({ carriers }: RateTable): Section {
  return {
    key: 'carriers',
    title: 'Truck and trailer',
    holds: carriers.map(({ name }) => name.en).join(', ') || 'none yet',
    adds: 'With them in, you see how many trips a job takes, and are warned of their payload.',
    base: '',
    parts: [
      {
        list: 'carriers',
        one: 'Carrier',
        blank: {},
        ordered: true,
        fields: () => [
          ...names,
          { path: 'volume', label: 'Filled level it holds', entry: figure, unit: '{bulk}' },
          {
            path: 'payload',
            label: 'It may carry',
            entry: figureOrNone,
            unit: '{weight}',
            hint: 'Empty: not known.',
          },
        ],
      },
    ],
  }
}

export function costsSection({ costs, currency }: RateTable): Section {
  return {
    key: 'costs',
    title: 'Wages, overhead, truck and margin',
    holds: costs.crewHour === null ? 'no wage yet' : `a crew hour at ${costs.crewHour} ${currency}`,
    adds: 'With your costs in, you would see pay per hour here, and cost and margin on every quote.',
    base: '',
    parts: [
      {
        heading: 'Costs',
        fields: [
          {
            path: 'costs.crewHour',
            label: 'Wage of a crew hour',
            entry: figureOrNone,
            unit: '{money}',
            hint: 'Empty: not known, and so no cost is shown.',
          },
          { path: 'costs.burden', label: 'What you pay on top of the wage', entry: percent, unit: '%' },
          {
            path: 'costs.overheadPerCrewHour',
            label: 'Overhead on each crew hour',
            entry: figure,
            unit: '{money}',
          },
          { path: 'costs.truckPerJob', label: 'The truck, each job', entry: figure, unit: '{money}' },
          { path: 'costs.truckPerTrip', label: 'The truck, each trip', entry: figure, unit: '{money}' },
        ],
      },
      {
        heading: 'Finishes priced by what they cost',
        fields: [
          {
            path: 'costPlus.by',
            label: 'What is put on is',
            entry: choice(
              ['margin', 'a margin: a share of the price'],
              ['markup', 'a markup: a share of the cost'],
            ),
          },
          { path: 'costPlus.share', label: 'Share', entry: percent, unit: '%' },
        ],
      },
      {
        heading: 'Floors',
        about: 'A price that falls under one is pointed out before you quote it.',
        fields: [
          { path: 'floors.margin', label: 'Margin of the price', entry: percentOrNone, unit: '%' },
          {
            path: 'floors.payPerCrewHour',
            label: 'Pay for a crew hour',
            entry: figureOrNone,
            unit: '{money}',
          },
        ],
      },
    ],
  }
}
