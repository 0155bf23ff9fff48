import { z } from 'zod'
import {
  choice,
  figure,
  figureOrNone,
  INVENTED,
  type Source,
  share,
  shareOrNone,
  span,
  text,
  together,
} from './row.ts'

/** What planting multiplies the labor hours by. */
function slower(row: string, words: string, start: string, source?: Source) {
  const facts = {
    section: 'labour',
    source,
    file: 'planted.csv',
    row,
    unit: 'times',
    from: 1,
    to: 10,
    before: '1',
    start,
  }
  return figure('hours', `Where plants are ${words}, multiply hours by`, {
    ...facts,
    key: `labour.planted.${row}`,
  })
}

/** What a place multiplies the labor hours by; nothing while the owner hasn't set it. */
function hinders(name: string, label: string, start: string) {
  const facts = { section: 'labour', heading: 'Slopes and gates', unit: 'times', from: 1, to: 10 }
  return figure(name, label, { ...facts, before: '1', start, source: INVENTED })
}

// Keys are stored, and so stay as they were first written.
const laboring = { section: 'labour', source: INVENTED }
const carried = { section: 'labour', heading: 'From the pile to the bed' }
const roundAbout = { section: 'labour', heading: 'Around the job', unit: 'h', before: '0' }
const crewed = { section: 'labour', heading: 'Crew and drive' }

export const labor = z.object({
  spread: span(['spreading, lower', 'spreading, upper'], 'Spreading a {bulkName}', {
    ...laboring,
    unit: 'h',
    meaning: 'Labor hours, for one person.',
    before: '0',
    start: { us: '0.75', metric: '1' },
    key: 'labour.spread',
    handful: true,
    words: '{} h',
  }),
  carry: together(
    z.object({
      free: figure('carrying, free', 'No extra time up to', {
        ...carried,
        unit: '{length}',
        before: { us: '50', metric: '15' },
        start: { us: '50', metric: '15.24' },
      }),
      each: figure('carrying, each', 'Beyond that, every', {
        ...carried,
        unit: '{length}',
        above: 0,
        before: { us: '50', metric: '15' },
        start: { us: '50', metric: '15.24' },
      }),
      adds: share('carrying, adds', 'Adds to the hours', { ...carried, to: 10, before: '0', start: '0.15' }),
    }),
    {
      label: 'Extra time for every {each} {length} past {free} {length}',
      words: '{adds}',
      source: INVENTED,
      key: 'labour.carry',
    },
  ),
  stair: share('stair', 'Each stair adds to the hours', {
    ...carried,
    before: '0',
    start: '0.02',
    source: INVENTED,
    key: 'labour.stair',
  }),
  planted: z.object({
    open: slower('open', 'few', '1'),
    half: slower('half', 'in half the bed', '1.1', INVENTED),
    full: slower('full', 'all over it', '1.25', INVENTED),
  }),
  slope: hinders('slope', 'On a slope, multiply hours by', '1.15'),
  steep: hinders('steep slope', 'On a steep slope, multiply hours by', '1.4'),
  gate: hinders('narrow gate', 'Through a gate too narrow for a wheelbarrow, multiply hours by', '1.25'),
  trip: span(['trip, lower', 'trip, upper'], 'A trip to the yard and back', {
    ...roundAbout,
    meaning: 'Loading included.',
  }),
  setUp: span(['setting up, lower', 'setting up, upper'], 'Setup, once per job', roundAbout),
  least: figure('least hours', 'A job counts as at least', {
    ...roundAbout,
    to: 1000,
    meaning: 'Labor hours in all. They’re paid, charged where you price from cost, and kept free on the day.',
  }),
  crew: figure('crew', 'How many people come to a job', {
    ...crewed,
    from: 0.5,
    to: 50,
    before: '1',
    meaning: 'If you list people with wages, the list says it instead.',
  }),
  workDay: figure('work day', 'How long the crew works in a day', {
    ...crewed,
    unit: 'h',
    from: 0.5,
    to: 24,
    before: '8',
    meaning:
      'Hours on the clock. Longer jobs take more days, so more drives, and more of a truck by the day.',
  }),
  drive: figure('drive', 'Driving there and back', {
    ...crewed,
    unit: 'h',
    to: 24,
    before: '0',
    meaning: 'Hours on the clock a day, for each person. A zone can have its own. 0: not counted.',
  }),
  driven: figure('driven', 'How far that is', { ...crewed, unit: '{far}', before: '0' }),
})

const hand = { secret: true }

/** Somebody who comes along, by name or by kind of work, and how many such on a usual job. */
export const person = z.object({
  name: text('name', 'Name, or kind of work', hand),
  come: figure('come', 'How many come on a usual job', { to: 50, start: '1' }),
  wage: figure('wage', 'Wage per labor hour', { unit: '{money} per labor hour', ...hand }),
  burden: shareOrNone('burden', 'Payroll taxes and insurance on top', {
    meaning: 'Empty: the same as for everybody.',
    ...hand,
  }),
})

const spent = { section: 'costs', heading: 'Costs', unit: '{money}', secret: true, before: '0' }
const MORE = 'More on truck and overhead'
const plus = { section: 'costs', heading: 'Finishes priced from cost' }
const floored = {
  section: 'costs',
  heading: 'The least you want',
  meaning: 'You’re warned before you quote a price under it. Empty: no minimum.',
  secret: true,
}

export const costs = z.object({
  /** Null while it isn't known, and so no cost is. */
  wage: figureOrNone('wage', 'Wage per labor hour', {
    ...spent,
    was: 'crew hour',
    unit: '{money} per labor hour',
    before: null,
    meaning: 'Empty: not known, so no cost is shown.',
  }),
  burden: share('burden', 'Payroll taxes and insurance on top of the wage', {
    ...spent,
    unit: 'share',
    to: 5,
  }),
  overheadPerLaborHour: figure('overhead', 'Overhead per labor hour', {
    ...spent,
    unit: '{money} per labor hour',
  }),
  truckPerJob: figure('truck, each job', 'Truck, per job', { ...spent, unit: '{money} per job' }),
  truckPerTrip: figure('truck, each trip', 'Truck, per trip', { ...spent, unit: '{money} per trip' }),
  truckBy: choice(
    'truck by',
    'Truck, besides that, by',
    { day: 'the day', hour: 'the hour on the clock', distance: 'the distance driven' },
    { section: 'costs', heading: MORE, before: 'day' },
  ),
  truckEach: figure('truck, each', 'Truck, for each of those', {
    ...spent,
    heading: MORE,
    meaning: 'Per day, hour, or {farName}. 0: none.',
  }),
  overheadShare: share('overhead, share', 'Overhead, as a share of the other costs', {
    ...spent,
    heading: MORE,
    unit: 'share',
    to: 5,
    meaning: 'On top of overhead per labor hour. Most owners use one or the other.',
  }),
})

/** What is put on cost where a finish is priced by it. */
export const costPlus = z
  .object({
    by: choice(
      'priced on cost by',
      'You add',
      { margin: 'a margin: a share of the price', markup: 'a markup: a share of the cost' },
      { ...plus, before: 'margin' },
    ),
    share: share('priced on cost, share', 'How much', { ...plus, to: 10, before: '0.40', secret: true }),
  })
  // A margin of the whole price would make the price endless.
  .refine(({ by, share }) => by === 'markup' || Number(share) <= 0.95, {
    path: ['share'],
    message: 'a margin of 0.95 at most',
  })

/** What the owner doesn't want to fall under. */
export const floors = z.object({
  margin: shareOrNone('floor, margin', 'Margin of the price', floored),
  payPerLaborHour: figureOrNone('floor, pay', 'Pay per labor hour', {
    ...floored,
    unit: '{money} per labor hour',
  }),
})
