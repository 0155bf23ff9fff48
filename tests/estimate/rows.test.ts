import { expect, test } from 'vitest'
import { decimal } from '../../src/estimate/table/row.ts'

const takes = (bounds: Parameters<typeof decimal>[0], typed: string) =>
  decimal(bounds).safeParse(typed).error?.issues[0]?.message

test('a figure is held to the one bound that it has, or to both', () => {
  expect(takes({ from: 1 }, '0.9')).toBe('at least 1')
  expect(takes({ from: 1 }, '1')).toBeUndefined()
  expect(takes({ to: 5 }, '5.01')).toBe('at most 5')
  expect(takes({ to: 5 }, '5')).toBeUndefined()
  expect(takes({ above: 0, to: 5 }, '0')).toBe('more than zero')
  expect(takes({ above: 0, to: 5 }, '5.01')).toBe('at most 5')
  expect(takes({ from: 1, to: 3 }, '3.5')).toBe('from 1 to 3')
  expect(takes({ from: 0, to: 1 }, '1')).toBeUndefined()
})
