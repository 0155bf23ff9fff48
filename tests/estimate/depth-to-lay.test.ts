import { expect, it } from 'vitest'
import { readTold } from '../../src/estimate/reading/read-beds.ts'
import { testTable, toldBed } from './jobs.ts'

it.each([
  ['3-4', '= 3.5 in'],
  ['about 3', '= 3 in'],
  ['3', '= 3 in'],
])('a depth to lay is a choice: %s is told as what will be laid, without how sure it is', (depth, echo) => {
  const reading = readTold({ beds: [toldBed({ depth })] }, testTable())
  expect(reading.ok).toBe(true)
  expect(reading.echoes['beds.0.depth']).toBe(echo)
})
