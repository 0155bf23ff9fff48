import { type Cell, figure, figureOrNone, word } from './cells.ts'
import { type KeyedRow, keyedFile } from './keyed-file.ts'
import type { Column } from './rows.ts'

/** The columns of a CSV file of names and values. */
export const nameAndValue: Column[] = [
  { name: 'name', meaning: 'which figure; every name has its row' },
  { name: 'value', meaning: 'the figure or word' },
  { name: 'unit', meaning: 'not read', explains: true },
  { name: 'meaning', meaning: 'not read', explains: true },
]

/** A row of a CSV file of names and values. */
export function setting(
  key: string,
  path: string,
  unit: string,
  meaning: string,
  cell: Cell = figure,
): KeyedRow {
  return { key, unit, meaning, fields: [{ name: 'value', path, cell, meaning }] }
}

const hours = 'crew hours per {bulk}'

export const settingsFile = keyedFile({
  file: 'settings.csv',
  about: 'The figures of which there is one each.',
  columns: nameAndValue,
  wordsOf: key => key,
  rows: [
    setting('units', 'units', '', 'us or metric; stays as it is', word),
    setting('currency', 'currency', '', 'three letters; stays as it is', word),
    setting('minimum charge', 'minimumCharge', '{money}', 'the least that a job costs'),
    setting('allowance', 'allowance', 'share', 'for settling and loss, on top of what lies in place'),
    setting('thinnest top-up', 'thinnestTopUp', '{depth}', 'a thinner layer can’t be spread'),
    setting('pace', 'pace', '{length}', 'a pace of people who measure in paces'),
    setting('told depth, give or take', 'lyingTold', '{depth}', 'of a depth lying there that was told'),
    setting('measured depth, give or take', 'lyingMeasured', '{depth}', 'of one that was measured'),
    setting('promise', 'promise', 'share', 'of jobs that end up inside their range'),
    setting('step', 'step', '{money}', 'to which ranges are rounded'),
    setting('spreading, lower', 'labour.spread.lower', hours, 'laying, of one person'),
    setting('spreading, upper', 'labour.spread.upper', hours, 'laying, of one person'),
    setting(
      'carrying, free',
      'labour.carry.free',
      '{length}',
      'from the heap to the bed without being slower',
    ),
    setting('carrying, each', 'labour.carry.each', '{length}', 'beyond that, each so much more …'),
    setting('carrying, adds', 'labour.carry.adds', 'share', '… adds this share of the hours'),
    setting('stair', 'labour.stair', 'share', 'of the hours that each stair on the way adds'),
    setting('trip, lower', 'labour.trip.lower', 'crew hours', 'to the yard, loading, and back'),
    setting('trip, upper', 'labour.trip.upper', 'crew hours', 'to the yard, loading, and back'),
    setting('setting up, lower', 'labour.setUp.lower', 'crew hours', 'once for every job'),
    setting('setting up, upper', 'labour.setUp.upper', 'crew hours', 'once for every job'),
    setting('crew hour', 'costs.crewHour', '{money}', 'the wage of one; empty: not known', figureOrNone),
    setting('burden', 'costs.burden', 'share', 'what the employer pays on top of the wage'),
    setting('overhead', 'costs.overheadPerCrewHour', '{money} per crew hour', 'what else the business costs'),
    setting('truck, each job', 'costs.truckPerJob', '{money}', 'what the truck costs for a job'),
    setting('truck, each trip', 'costs.truckPerTrip', '{money}', 'what it costs for a trip'),
    setting(
      'priced on cost by',
      'costPlus.by',
      '',
      'margin: a share of the price; markup: of the cost',
      word,
    ),
    setting('priced on cost, share', 'costPlus.share', 'share', 'put on what is priced by cost'),
    setting('floor, margin', 'floors.margin', 'share', 'of the price; empty: no floor', figureOrNone),
    setting('floor, pay', 'floors.payPerCrewHour', '{money} per crew hour', 'empty: no floor', figureOrNone),
  ],
})
