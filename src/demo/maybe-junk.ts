import { randomUUID } from 'node:crypto'
import type { Deps } from '../deps.ts'
import { score, type Words } from '../junk/score.ts'
import { requireStanding } from '../rates/standing.ts'
import { holdAsMaybeJunk } from '../requests/maybe-junk/hold.ts'
import { workOutBeds } from '../requests/worked.ts'
import { bed } from './stories.ts'

const NEVER = { here: 0, elsewhere: 0 }

/** Two that are held as maybe junk: one that surely is, and one of somebody who is quick and has many photos elsewhere. */
export async function fillMaybeJunk(deps: Deps): Promise<void> {
  await hold(deps, {
    seconds: null,
    phone: '',
    email: 'offers@example.com',
    postcode: '69401',
    words: {
      name: 'qwxzj vbkrtp',
      street: 'zkrjq 9',
      preferredTimes: '',
      gate: '',
      dog: '',
      note: 'wqzxk bvjrtq hgkzpw xcvqj http://leads.example/qx http://pills.example/zz',
    },
  })
  await hold(deps, {
    seconds: 2,
    phone: '(555) 555-0119',
    email: '',
    postcode: '69402',
    words: {
      name: 'Juniper Sedge',
      street: '5 Willow Bend',
      preferredTimes: 'Mornings',
      gate: '',
      dog: '',
      note: 'Photos: https://photos.example/a/1 https://photos.example/a/2 https://photos.example/a/3',
    },
    hasBeds: true,
  })
}

interface Held {
  words: Words
  seconds: number | null
  phone: string
  email: string
  postcode: string
  hasBeds?: boolean
}

async function hold(deps: Deps, { words, seconds, phone, email, postcode, hasBeds = false }: Held) {
  const before = { address: 0, network: 0, minutes: 0, day: 0 }
  const repeats = { text: NEVER, shortText: NEVER, contact: NEVER, site: NEVER }
  const verdict = score({ words, seconds, hiddenBox: '', before, ...repeats })
  const beds = hasBeds ? [bed('rectangle', { length: '30 ft', width: '6 ft' }, { measuredBy: 'paces' })] : []
  const told = { beds, extras: [], postcode }
  const { rates } = await requireStanding(deps)
  const worked = hasBeds
    ? { rateTableId: rates.id, ...workOutBeds({ told, understood: null }, rates.body) }
    : null
  const sentAs = hasBeds ? 'beds' : 'look'
  const sending = { ...words, phone, email, postcode, told, sentAs, language: 'en' } as const
  await holdAsMaybeJunk(deps, { ...sending, submissionKey: randomUUID() }, worked, verdict)
}
