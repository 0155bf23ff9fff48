import { describe, expect, it } from 'vitest'
import { amountSent } from '../../src/estimate/reading/read-beds.ts'

describe('how much was sent', () => {
  const figures = (sizes: object, cutOuts?: unknown) => amountSent({ beds: [{ sizes, cutOuts }] }).figures

  it('is each number, each figure in a text, and each entry of a list', () => {
    expect(figures({ length: 1e300, width: `20' 6"` }, ['4 x 3 ft; 2 ft', 1.5])).toBe(1 + 2 + 3 + 1)
    expect(figures({ length: '12 1/2', width: '3,5', other: null })).toBe(2 + 1)
    expect(figures({ radii: [null, '', {}, '9'] })).toBe(4)
  })

  it.each([
    ['numbers', { radii: Array(5000).fill(1e300) }],
    ['figures in texts', { radii: '9 '.repeat(5000) }],
    ['nothing at all', { radii: Array(5000).fill('') }],
  ])('is counted until it is too much, of %s', (_what, sizes) => {
    const beds = Array.from({ length: 3 }, () => ({ sizes }))
    expect(amountSent({ beds })).toEqual({ beds: 3, figures: 1001 })
  })

  it('looks at no more of a list than that', () => {
    let looked = 0
    const radii = new Proxy(Array(5000).fill(9), {
      get(list, name) {
        if (typeof name === 'string' && /^\d+$/.test(name)) looked += 1
        return Reflect.get(list, name)
      },
    })
    expect(figures({ radii })).toBe(1001)
    expect(looked).toBeLessThanOrEqual(1001)
  })
})
