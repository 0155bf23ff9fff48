import { expect, test } from 'vitest'
import { JunkWatch } from '../../src/junk/watch.ts'
import { COPIED, FLOOD_START, flood, REAL } from '../helpers/flood.ts'

const REQUESTS = 1000

test.each(['letters', 'words'] as const)(
  'of 1,000 requests with random %s, half of them copies, few are let in, and each person is',
  async random => {
    const clock = { at: FLOOD_START }
    const watch = new JunkWatch(() => clock.at)
    const send = async (
      address: string,
      { name, street, note }: { name: string; street: string; note: string },
      seconds: number,
    ) => {
      const words = { name, street, note, preferredTimes: 'weekdays after 4', gate: '', dog: '' }
      const submission = `${address} ${name} ${note}`
      const arriving = { submission, address, words, phone: '', email: '', hiddenBox: '', seconds }
      return (await watch.weigh(arriving)).held
    }
    let letIn = 0
    let nth = 0
    for (const { at, address, fields, seconds } of flood(REQUESTS, random)) {
      clock.at = at
      if (!(await send(address, fields, seconds))) letIn += 1
      nth += 1
      for (const real of Object.values(REAL))
        if (nth === REQUESTS * real.at)
          expect([real.name, await send(real.address, real, 40)]).toEqual([real.name, false])
    }
    // Of each text those before it was known as one that is copied, and of real words those before they were many.
    expect(letIn).toBeLessThanOrEqual(2 * COPIED.length + 4)
  },
)
